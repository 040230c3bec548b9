//! Whole jobs on the memory platform: scripted taps, readings and faults,
//! with fixed times.

#![allow(clippy::expect_used, clippy::panic, clippy::unwrap_used)]

mod bench;
mod golden;
mod held;
mod scenario;
mod sheet_text;

mod again;
mod again_found;
mod again_names;
mod again_never;
mod again_passed;
mod along_face;
mod backup;
mod backup_bad;
mod backup_many;
mod bad_entries;
mod behind_photos;
mod card_photos;
mod clock_goes_back;
mod drilled_sets;
mod export;
mod fault;
mod fitting;
mod full_size;
mod hand;
mod job_list;
mod job_photos;
mod kit_sheets;
mod learn;
mod learn_after;
mod learn_gate;
mod learn_heard;
mod level;
mod mark_cards;
mod marks;
mod marks_moved;
mod marks_sheet;
mod measuring;
mod measuring_faults;
mod microphone;
mod old_hole;
mod photo_room;
mod records;
mod restock;
mod restore;
mod restore_odd;
mod sensor_faults;
mod sheet_data;
mod sheet_pdf;
mod sight;
mod steps;
mod storage_faults;
mod store;
mod store_kept;
mod stored_records;
mod supply;
mod tape_check;
mod template;
mod twice;
mod undo;
mod verdicts;
mod walk;
mod whole_job;
