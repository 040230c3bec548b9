//! The browser's processes and what memory they hold, by Linux's `/proc`.

use std::fs;
use std::io;

fn of_process(pid: u32, name: &str) -> io::Result<String> {
    fs::read_to_string(format!("/proc/{pid}/{name}"))
}

/// Process id of the browser: this program has one at a time.
///
/// # Panics
/// If none runs.
#[must_use]
pub fn browser_pid() -> u32 {
    let entries = fs::read_dir("/proc").into_iter().flatten().flatten();
    let mut pids = entries.filter_map(|entry| entry.file_name().to_str()?.parse::<u32>().ok());
    let own = std::process::id().to_string();
    let is_browser = |pid: &u32| {
        let stat = of_process(*pid, "stat").unwrap_or_default();
        let parent = stat
            .rsplit(')')
            .next()
            .and_then(|rest| rest.split_whitespace().nth(1));
        let line = of_process(*pid, "cmdline").unwrap_or_default();
        parent == Some(own.as_str()) && line.contains("--remote-debugging")
    };
    pids.find(is_browser).expect("the browser runs")
}

/// Memory of its own that the phone's browser holds, all processes, MiB.
#[must_use]
pub fn memory_mib(root: u32) -> f64 {
    let entries = fs::read_dir("/proc").into_iter().flatten().flatten();
    let pids = entries.filter_map(|entry| entry.file_name().to_str()?.parse::<u32>().ok());
    let parents: Vec<(u32, u32)> = pids
        .filter_map(|pid| {
            let stat = of_process(pid, "stat").ok()?;
            let rest = stat.rsplit(')').next()?;
            Some((pid, rest.split_whitespace().nth(1)?.parse().ok()?))
        })
        .collect();
    let mut tree = vec![root];
    let mut at = 0;
    while let Some(parent) = tree.get(at).copied() {
        let children = parents.iter().filter(|(_, of)| *of == parent);
        tree.extend(children.map(|(pid, _)| *pid));
        at += 1;
    }
    let anonymous = |pid: &u32| {
        let rollup = of_process(*pid, "smaps_rollup").ok()?;
        let line = rollup.lines().find(|line| line.starts_with("Anonymous:"))?;
        line.split_whitespace().nth(1)?.parse::<f64>().ok()
    };
    tree.iter().filter_map(anonymous).sum::<f64>() / 1024.0
}
