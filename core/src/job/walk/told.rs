//! What walk test and function check come to, in words.

use super::{Answered, HeadAnswer, VoidWhy, WalkKind, WalkTest};
use crate::decide::coverage::too_close;
use crate::decide::walk_test::{
    Area, LimitFrom, PointBy, Seen, ShareLimit, WalkPoint, around_object, grid, nine,
};
use crate::figure;
use crate::job::coverage::{ASSUMED_RANGE, TYPICAL_RINGING, air_of};
use crate::job::entry::Field;
use crate::job::marks::{HalfWidths, half_widths};
use crate::job::state::JobState;
use crate::order;
use crate::text::{Message, msg};

/// What has to be so before anybody walks behind the vehicle.
#[must_use]
pub fn walk_cautions() -> Vec<Message> {
    vec![
        msg("walk-caution-engine"),
        msg("walk-caution-still"),
        msg("walk-caution-side"),
        msg("walk-caution-nobody"),
        msg("walk-caution-feed"),
        msg("walk-caution-maker"),
    ]
}

/// What the points follow from.
///
/// # Errors
/// That the width is not known.
pub fn walk_area(job: &JobState) -> Result<Area, Message> {
    let (half_left, half_right) = match (&job.marks, half_widths(job)) {
        (Some(marks), _) => (marks.half_left, marks.half_right),
        (None, HalfWidths::Ready { left, right, .. }) => (left, right),
        (None, HalfWidths::Open { .. }) => return Err(msg("walk-no-width")),
    };
    let sensing = job.kit.sensing.as_ref();
    let ringing = sensing.and_then(|s| s.ringing).unwrap_or(TYPICAL_RINGING);
    Ok(Area {
        half_left,
        half_right,
        range: sensing.and_then(|s| s.rated_range).unwrap_or(ASSUMED_RANGE),
        too_close: too_close(ringing, &air_of(job)),
    })
}

/// The points of a test: those at a learned object come first.
///
/// # Errors
/// Why there are none.
pub fn walk_points(job: &JobState, kind: WalkKind) -> Result<Vec<WalkPoint>, Message> {
    let area = walk_area(job)?;
    let rows = match kind {
        WalkKind::Nine => nine(&area),
        WalkKind::Grid => grid(&area),
    };
    let rows = rows.map_err(|fault| fault.message())?;
    let object = job.walk.learned.iter().flat_map(|object| {
        let [behind, left, right] = around_object(object.across, object.half_width, object.reaches);
        [behind, left, right]
    });
    Ok(object.chain(rows).collect())
}

/// A place in words: '760 mm left, 900 mm behind'.
#[must_use]
pub fn point_words(point: &WalkPoint) -> Message {
    let words = msg(match point.by {
        PointBy::Row => "walk-point",
        PointBy::BehindObject => "walk-point-behind-object",
        PointBy::LeftOfObject => "walk-point-left-of-object",
        PointBy::RightOfObject => "walk-point-right-of-object",
    });
    words
        .message("across", crate::job::offset_words(point.across))
        .mm("behind", point.behind.0)
}

/// How far a test came.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Half {
    /// Points with a tap.
    pub done: usize,
    /// Points.
    pub of: usize,
}

/// How far the current test came; `None` when it is whole or was not started.
#[must_use]
pub fn walk_half(job: &JobState) -> Option<Half> {
    let test = job.walk.test.as_ref()?;
    (!test.is_whole()).then_some(Half {
        done: test.taps.len(),
        of: test.points.len(),
    })
}

/// What the share comes to.
#[derive(Clone, Debug, PartialEq)]
pub struct SharesSaid {
    /// Counted.
    pub seen: Seen,
    /// Held against.
    pub limit: ShareLimit,
    /// In words.
    pub words: Message,
    /// Where the limit comes from, and that the published one is not known.
    pub source: Message,
}

/// The least share as typed, else our own.
///
/// # Errors
/// What stands there instead of a share.
pub fn share_limit(job: &JobState) -> Result<ShareLimit, Message> {
    let typed = job.typed(Field::WalkShare).trim();
    if typed.is_empty() {
        return Ok(ShareLimit::default());
    }
    let figure = typed.trim_end_matches('%').trim().replace(',', ".");
    match figure::read(&figure) {
        Some(percent) if percent > 0.0 && percent <= 100.0 => Ok(ShareLimit {
            least: percent / 100.0,
            from: LimitFrom::Typed,
        }),
        _ => Err(msg("walk-share-no-figure").text("typed", typed)),
    }
}

/// The share of a test against its limit. A half-done test has a share of
/// what was tapped and no verdict.
#[must_use]
pub fn share_words(job: &JobState, test: &WalkTest) -> Option<SharesSaid> {
    let limit = share_limit(job).unwrap_or_default();
    // Points around a learned object are not of the share.
    let of_rows = test.taps.iter().filter(|tap| {
        let place = test.points.get(usize::from(tap.point));
        place.is_some_and(|place| place.by == PointBy::Row)
    });
    let seen = Seen::count(of_rows.map(|tap| tap.sounded));
    let key = match (seen.reaches(&limit)?, test.is_whole()) {
        (_, false) => "walk-share-half-done",
        (true, true) => "walk-share-reached",
        (false, true) => "walk-share-missed",
    };
    let words = msg(key)
        .count("seen", i64::from(seen.seen))
        .count("of", i64::from(seen.of))
        .number("share", seen.share()? * 100.0, 0)
        .number("least", limit.least * 100.0, 0);
    Some(SharesSaid {
        seen,
        limit,
        words,
        source: msg("walk-share-source").message("from", limit.from.message()),
    })
}

/// A head that answers for another: its lead is in the other's socket.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Misplug {
    /// The head that was approached.
    pub spot: u8,
    /// The head that answered.
    pub shown: u8,
}

/// Heads whose leads are in another head's socket, by the order in which
/// they answered.
#[must_use]
pub fn misplugged(job: &JobState) -> Vec<Misplug> {
    let mut all: Vec<Misplug> = job
        .walk
        .heads
        .iter()
        .filter_map(|head| match head.answered {
            Answered::Shown(shown) if shown != head.spot => Some(Misplug {
                spot: head.spot,
                shown,
            }),
            _ => None,
        })
        .collect();
    order::sort_by_key(&mut all, |swap| swap.spot);
    all
}

fn label(job: &JobState, spot: u8) -> String {
    let spot = job.spots.get(usize::from(spot));
    spot.map_or_else(String::new, |spot| spot.label.clone())
}

/// What is plugged wrong, in words: a pair that is swapped is said once.
#[must_use]
pub fn swapped_words(job: &JobState) -> Vec<Message> {
    let all = misplugged(job);
    all.iter()
        .filter(|a| !(is_swap(&all, a) && a.shown < a.spot))
        .map(|a| plug_words(job, &all, a))
        .collect()
}

/// As [`swapped_words`], of one head.
#[must_use]
pub fn swapped_words_of(job: &JobState, spot: u8) -> Option<Message> {
    let all = misplugged(job);
    let own = all.iter().find(|a| a.spot == spot)?;
    Some(plug_words(job, &all, own))
}

fn is_swap(all: &[Misplug], one: &Misplug) -> bool {
    all.iter()
        .any(|other| other.spot == one.shown && other.shown == one.spot)
}

fn plug_words(job: &JobState, all: &[Misplug], one: &Misplug) -> Message {
    let swap = is_swap(all, one);
    let (first, second) = if swap && one.shown < one.spot {
        (one.shown, one.spot)
    } else {
        (one.spot, one.shown)
    };
    let words = msg(if swap {
        "heads-swapped"
    } else {
        "heads-in-other-socket"
    });
    words
        .text("label", label(job, first))
        .text("other", label(job, second))
}

/// The function check: the heads that answer as themselves in one line, each
/// other one in a line of its own.
#[must_use]
pub fn head_check_lines(job: &JobState) -> Vec<Message> {
    let mut heads = job.walk.heads.clone();
    order::sort_by_key(&mut heads, |head| head.spot);
    let as_itself = |head: &&HeadAnswer| head.answered == Answered::Shown(head.spot);
    let own: Vec<String> = heads
        .iter()
        .filter(as_itself)
        .map(|head| label(job, head.spot))
        .collect();
    let mut lines = Vec::new();
    match own.as_slice() {
        [] => {}
        [one] => lines.push(msg("head-answers-itself").text("label", one.clone())),
        all => lines.push(msg("heads-answer-themselves").text("labels", all.join(", "))),
    }
    let others = heads.iter().filter(|head| !as_itself(head)).map(|head| {
        let words = match head.answered {
            Answered::Nothing => msg("head-answers-nothing"),
            Answered::Sounds => msg("head-answers-sound"),
            Answered::Shown(shown) => msg("head-answers-other").text("other", label(job, shown)),
        };
        words.text("label", label(job, head.spot))
    });
    lines.extend(others);
    lines
}

/// What of the function check is not as it should be: plugs in other heads'
/// sockets, heads that do not answer.
#[must_use]
pub fn head_troubles(job: &JobState) -> Vec<Message> {
    let mut silent: Vec<u8> = job
        .walk
        .heads
        .iter()
        .filter(|head| head.answered == Answered::Nothing)
        .map(|head| head.spot)
        .collect();
    order::sort_by_key(&mut silent, |spot| *spot);
    let words = |spot: &u8| msg("head-answers-nothing").text("label", label(job, *spot));
    let mut all = swapped_words(job);
    all.extend(silent.iter().map(words));
    all
}

/// The first line of the screen.
#[must_use]
pub fn walk_headline(job: &JobState) -> Message {
    let count = |n: usize| i64::try_from(n).unwrap_or(i64::MAX);
    let Some(test) = &job.walk.test else {
        let void = job.walk.earlier.last().and_then(|test| test.void.as_ref());
        return match void.map(|void| void.why) {
            Some(VoidWhy::NewLearn) => msg("walk-headline-void-learn"),
            Some(VoidWhy::MarkMoved) => msg("walk-headline-void-moved"),
            Some(VoidWhy::StartedAnew) | None => msg("walk-headline-not-done"),
        };
    };
    match (walk_half(job), share_words(job, test)) {
        (Some(half), _) => msg("walk-headline-half-done")
            .count("done", count(half.done))
            .count("of", count(half.of)),
        (None, Some(said)) => said.words,
        (None, None) => msg("walk-headline-not-done"),
    }
}
