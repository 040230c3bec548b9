//! The mark-out as a wasm module of its own, for the bench in the browser:
//! the tasks of the native bench, solved where the phone solves them.

#[cfg(target_arch = "wasm32")]
mod module {
    use std::cell::RefCell;

    use rakeline_core::decide::mark_out::{MarkOutTask, solve};
    use rakeline_tests::markout::timed_tasks;
    use wasm_bindgen::prelude::*;

    thread_local! {
        static TASKS: RefCell<Vec<MarkOutTask>> = const { RefCell::new(Vec::new()) };
    }

    /// Makes so many tasks for a half width.
    #[wasm_bindgen]
    pub fn make(half: i32, count: usize) {
        TASKS.set(timed_tasks(half.into(), count));
    }

    /// Solves a task; whether it has plans.
    #[wasm_bindgen]
    pub fn solve_one(task: usize) -> bool {
        TASKS.with_borrow(|tasks| tasks.get(task).is_some_and(|task| solve(task).is_ok()))
    }
}

fn main() {}
