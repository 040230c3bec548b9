//! The job sheet on the screen, as it prints.

use dioxus::prelude::*;
use rakeline_core::report::{
    Block, Document, Section, SheetPhoto, job_sheet, kept, workshop_sheet, workshop_walk,
};

use super::job_photos::HeadPhotos;
use super::measures::Particulars;
use super::photo_notes::Drawn;
use super::sheet_files::SheetFiles;
use crate::driver::{Intent, PhotoIntent};
use crate::parts::{DrawingView, Frame};
use crate::route::Step;
use crate::shell::use_shell;
use crate::steps::book;
use crate::texts::{say, t};

/// The screen of the job sheet.
#[component]
pub fn Sheet() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let Some(job) = state.job() else {
        return rsx! {};
    };
    let now = shell.now();
    let (at, zone) = match job.issued() {
        Some(issue) => (issue.at, issue.zone.clone()),
        None => (now.at, now.zone),
    };
    let mut document = job_sheet(job, at, &zone);
    document.sections.extend(kept(job, book()));
    let issue = shell.clone();
    rsx! {
        Frame {
            here: Step::Sheet,
            foot: rsx! {
                button {
                    class: "do",
                    onclick: move |_| issue.send(Intent::IssueSheet),
                    {t("print-sheet")}
                }
            },
            div { class: "no-print", Particulars {} }
            HeadPhotos { job: job.clone() }
            SheetFiles {}
            Paper { document, head: rsx! { LetterHead {} } }
            Workshop {}
        }
    }
}

/// The workshop's part: it is not on the customer's page and not printed
/// with it.
#[component]
fn Workshop() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let part = state.drafts.sight.shown.as_ref();
    let part = part.map(|sight| workshop_sheet(sight));
    let walked = state.job().and_then(workshop_walk);
    let to = shell.clone();
    rsx! {
        section { class: "no-print stack",
            h2 { {t("workshop-only")} }
            p { class: "why", {t("workshop-why")} }
            if let Some(document) = part {
                Paper { document }
            }
            if let Some(document) = walked {
                Paper { document }
            }
            button {
                class: "also",
                onclick: move |_| to.send(Intent::GoStep(Step::Sight)),
                {t("step-sight")}
            }
        }
    }
}

/// The workshop's name, address, licence lines and logo at the head of what
/// is printed; nothing where none was entered.
#[component]
pub fn LetterHead() -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let lines = state.settings.letterhead.lines();
    let logo = state.settings.logo.as_ref().map(|logo| logo.blob.clone());
    let found = logo
        .as_ref()
        .and_then(|blob| state.drafts.photos.found(blob).cloned());
    if lines.is_empty() && logo.is_none() {
        return rsx! {};
    }
    let look = shell.clone();
    rsx! {
        header { class: "letterhead",
            div {
                for line in lines {
                    p { {line} }
                }
            }
            if let Some(blob) = logo {
                div {
                    key: "{blob}",
                    onmounted: move |_| look.send(Intent::Photo(PhotoIntent::Look(blob.clone()))),
                    match found {
                        Some(Ok(url)) => rsx! { img { src: "{url}", alt: t("sheet-logo") } },
                        Some(Err(why)) => rsx! { p { class: "no-print", {say(&why)} } },
                        None => rsx! { p { class: "no-print", role: "status", {t("level-reading-photo")} } },
                    }
                }
            }
        }
    }
}

/// A document as it prints, below its letterhead.
#[component]
pub fn Paper(document: Document, #[props(default)] head: Option<Element>) -> Element {
    rsx! {
        article { class: "paper-sheet",
            if let Some(head) = head {
                {head}
            }
            h1 { {say(&document.title)} }
            for section in document.sections {
                SectionView { section }
            }
        }
    }
}

#[component]
fn SectionView(section: Section) -> Element {
    rsx! {
        section {
            h2 { {say(&section.heading)} }
            for block in section.blocks {
                {block_view(block)}
            }
        }
    }
}

fn block_view(block: Block) -> Element {
    match block {
        Block::Pairs(pairs) => rsx! {
            dl {
                for (name , value) in pairs {
                    dt { {say(&name)} }
                    dd { {say(&value)} }
                }
            }
        },
        Block::Lines(lines) => rsx! {
            ul {
                for line in lines {
                    li { {say(&line)} }
                }
            }
        },
        Block::Drawing(drawing) => rsx! { DrawingView { drawing } },
        Block::Photos(photos) => rsx! {
            div { class: "shots",
                for photo in photos {
                    Shot { key: "{photo.blob}", photo }
                }
            }
        },
        Block::Table { head, rows } => rsx! {
            table { role: "table",
                thead {
                    tr { role: "row",
                        for cell in head.iter() {
                            th { scope: "col", role: "columnheader", {say(cell)} }
                        }
                    }
                }
                tbody {
                    for row in rows {
                        tr { role: "row",
                            for (cell , name) in row.iter().zip(&head) {
                                // On the narrow screen each cell carries its column's name.
                                td { role: "cell", "data-name": say(name), {say(cell)} }
                            }
                        }
                    }
                }
            }
        },
    }
}

/// A photo on the sheet, once it was read.
#[component]
fn Shot(photo: SheetPhoto) -> Element {
    let shell = use_shell();
    let state = shell.state.read();
    let found = state.drafts.photos.found(&photo.blob).cloned();
    let (look, looked) = (shell.clone(), photo.blob.clone());
    rsx! {
        figure {
            onmounted: move |_| look.send(Intent::Photo(PhotoIntent::Look(looked.clone()))),
            match found {
                Some(Ok(url)) => rsx! { Drawn { blob: photo.blob.clone(), size: photo.size, notes: photo.notes.clone(), url, name: say(&photo.caption), large: false } },
                Some(Err(why)) => rsx! { p { class: "trouble-box", {say(&why)} } },
                None => rsx! { p { role: "status", {t("level-reading-photo")} } },
            }
            figcaption { {say(&photo.caption)} }
        }
    }
}
