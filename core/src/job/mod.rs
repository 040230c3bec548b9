//! A job: events are facts, [`apply`] turns them into the next state.

mod agreed;
mod apply;
mod before;
mod behind;
mod card_guide;
mod card_notes;
mod card_photos;
mod card_words;
mod centre_line;
mod check;
mod coverage;
mod drilled_set;
mod entry;
mod event;
mod fault;
mod hindrances;
mod holes;
mod holes_next;
mod ignores;
mod job_photos;
mod kit_asked;
mod kit_says;
mod labels;
mod learned;
mod limit;
mod loom;
mod mark_out;
mod marks;
mod measured;
mod measuring;
mod photos;
mod quote;
mod rings;
mod rings_chosen;
mod row;
mod standing;
mod state;
mod step_path;
mod steps_done;
mod taken;
mod tape_by_photos;
mod tape_card;
mod tape_limit;
mod time_spent;
mod took;
mod typed_unit;
mod waits;
mod walk;
mod ways_out;

pub use agreed::{
    Agrees, FACES_ASKED, MARK_NEAR, U_HALF_WIDTH, agreement_words, faces_agree, faces_open,
    halves_agree, measured_before, read_by,
};
pub use apply::{Refusal, TEXT_GREATEST, apply, step_again, step_back};
pub use before::{
    Before, BeforeEvent, EARLIER_JOBS_GREATEST, ExpectedFace, ExpectedHalves, FromJob, Handed,
    Instrument, PLACES, holds_earlier_bumper, marks_from_words, may_be_handed, words_as_before,
};
pub use behind::{
    Answer, BehindEvent, BehindState, PANEL_GREATEST, behind_headline, behind_words, look,
    typed_depth, typed_panel,
};
pub use card_guide::{Guide, guide};
pub use card_notes::notes_on;
pub use card_photos::{
    CARD_PHOTOS_GREATEST, CardPhoto, CardPhotos, CardPhotosEvent, CardPrint, ShapeFrom,
    TAPS_GREATEST,
};
pub use card_words::{
    MarkLine, card_words, cards_missing, corners_by_photos, mark_lines, photo_lines, zero_words,
};
pub use centre_line::{CentreBy, centre_words, halved, read_full_width};
pub use check::{
    Agreed, AgreedHow, Check, CheckEvent, CheckView, SeenBehind, TapeTyped, check_view,
    tape_checked, tape_reading,
};
pub use coverage::{
    ASSUMED_HEIGHT, ASSUMED_RANGE, CoverageEvent, CoverageState, OBJECT_GREATEST, Placed,
    TYPICAL_ACROSS, TYPICAL_KILOHERTZ, TYPICAL_RINGING, TYPICAL_UPRIGHT, air_of, air_trouble,
    fixed_object, heads_in_place, object_trouble, sensor_of,
};
pub use drilled_set::{fitting_at, set_needs_other_hole};
pub use entry::{
    AirField, CORNER_PLUS_MINUS, FACE_GREATEST, Facing, Field, GAUGE_PLUS_MINUS,
    HALF_WIDTH_GREATEST, HALF_WIDTH_LEAST, ObjectField, WhichLead, Whose, read_check_line,
    read_corner, read_degrees, read_half_width, read_length, read_offset, read_tape_place,
    read_typed_face,
};
pub use event::JobEvent;
pub use fault::{
    BesideHead, FaultEvent, FaultState, Finding, FittedAim, Found, ReadBeside, RingWay, Symptom,
    Where, YesNo, beside_angle, fitted_aim, fitted_typed, paint_typed, sinks_typed,
};
pub use holes::{
    Drilled, Hole, HolesEvent, HolesState, OLD_HOLE_GREATEST, hole, hole_cautions, holes_headline,
    seen_from_behind, tools, typed_old_hole,
};
pub use holes_next::{AtHoles, is_seated, next_at_holes};
pub use ignores::{Ignores, box_changed, ignores, learn_done, learn_headline};
pub use job_photos::{
    JOB_PHOTOS_GREATEST, NOTES_GREATEST, Note, Photo, PhotoEvent, PhotoOf, PicturePlace,
    head_photo, heads_without_photo, photos_of,
};
pub use kit_asked::{
    Asked, asked_for_coverage, asked_for_holes, asked_for_leads, asked_for_learn, asked_for_supply,
    asked_trouble,
};
pub use kit_says::kit_says;
pub use learned::{
    ATTEMPTS_GREATEST, Attempt, LearnedEvent, LearnedState, Object, ShiftTried, how_cleared,
    learn_gate_open, learn_open, shift_offered, shift_tried,
};
pub use limit::{Limit, limit_value, limits_shown};
pub use loom::{
    LoomEvent, LoomState, READINGS, ReadVolts, WARM_LEAD, fuse_fitted, fuse_typed, lead_name,
    lead_plan, lead_plans, leads_of, leads_reach, loom_headline, loom_open, loom_troubles,
    supply_drop, volts, volts_trouble,
};
pub use mark_out::{MarkOut, MarkOutEvent, marks_broken, would_break};
pub use marks::{
    CENTRE_LINE_DOUBT, HalfWidths, half_widths, marks_are_stale, marks_explained, marks_fault,
    no_plan_messages, offset_words, planned_place, plans, readings_lost, task_for,
};
pub use measured::{
    POOL_FROM, along_the_face, around, contact, corner_angle, corner_words, ground_figures,
    ground_words, held_angles, level_in_photo, line_in_photo, line_on_photo, mirrors,
    phone_as_seated, phone_words, plan_curve, reading_words, repeats_at, roundness_words, seating,
    stations_straight, sweep,
};
pub use measuring::{
    LOAD_GREATEST, LevelPhoto, Load, Measuring, MeasuringEvent, PHOTOS_GREATEST, PictureLine,
};
pub use photos::{BEHIND_PHOTOS_GREATEST, BehindPhoto, behind_photos, blobs_of, photo_name};
pub use quote::{
    MINUTES_GREATEST, QuoteEvent, QuoteState, minutes_trouble, money_trouble, parts_planned,
    parts_taken_at, parts_used, price_typed, quote, total_words, unpriced,
};
pub use rings::{
    SETTLED_BY_GROUND, aim_with_ring, budget_lines, face_with_plus_minus, facing_words, rake_at,
    rake_read, ring_choice, ring_choices, rings_headline, settled_by, ways_to_settle,
    with_plus_minus,
};
pub use rings_chosen::{
    HandTaken, MirrorPair, RingsEvent, RingsState, SetTaken, TakenBy, aim_at, hand_cautions,
    pair_words, pairs, set_taken, sets_taken, taken_words,
};
pub use row::{
    ROW_FROM_LINE_GREATEST, ROW_HEIGHT_GREATEST, ROW_HEIGHT_LEAST, Row, RowLine, height_fault,
    line_words, read_from_line, read_row_height, row_from_line_words, row_voids, row_words,
};
pub use standing::{Standing, StandingEvent, VISITS_GREATEST, Visit};
pub use state::{
    ClockTrust, JobId, JobState, Marks, MarksFrom, Particular, SheetIssue, Spot, TakenReading, Tape,
};
pub use step_path::{
    StageView, StepStands, StepView, done_on_screen, may_skip, not_done, paint_waits,
    paint_warning, step_path,
};
pub use steps_done::{Ended, HowEnded, StepsEvent, StepsState};
pub use taken::{
    SHAPE_REACH, Taken, along_known, no_shape, place_on_tape, straight_words, typed_offset,
};
pub use tape_by_photos::{TapeByPhotos, tape_by_photos};
pub use tape_card::{CardGap, CardMark, TapeCard, tape_card};
pub use tape_limit::{
    TAPE_LIMIT_GREATEST, TAPE_LIMIT_LEAST, TapeLimit, read_tape_limit, tape_limits,
    tape_limits_changed,
};
pub use time_spent::{
    PAUSE, SPENT_GREATEST, TimeCorrected, TimeSpent, minutes_spent, stages_spent,
};
pub use took::{Amount, Took, parts_quoted};
pub use waits::{
    WAIT_GREATEST, WAITS_GREATEST, Wait, WaitEvent, WaitStands, heads_wait, wait_holds, wait_words,
    waits_at,
};
pub use walk::{
    AgainstPrediction, Answered, Half, HeadAnswer, LearnedObject, Misplug, PointCompared,
    SharesSaid, Tap, VoidWhy, Voided, WalkEvent, WalkKind, WalkState, WalkTest, WalkTime,
    against_prediction, head_check_lines, head_troubles, misplugged, no_longer_seen, object_asked,
    point_words, share_limit, share_words, starts_late_by, swapped_words, swapped_words_of,
    time_limit, times_said, typed_object, walk_area, walk_cautions, walk_gate_open, walk_half,
    walk_headline, walk_points,
};
pub use ways_out::{
    MOVE_AT_LEAST, WayChange, WayOut, away_from, moved_alone, ways_out, ways_out_of,
};
