"""The list of `vectors.rs`, computed through the module `rakeline`."""

import math
import struct

import rakeline as r

KIT = open("assets/kits/plain-four.json", encoding="utf-8").read()
RECORD = open("tests/fixtures/ffi/record.json", encoding="utf-8").read()


def say(name, words):
    print(name, words.replace("\n", " / "))


def figure(name, value):
    say(name, "%.9f" % value)


def figures(name, values):
    for index, value in enumerate(values):
        figure(f"{name}.{index}", value)


def measured(name, of):
    figure(f"{name}.value", of.value)
    figure(f"{name}.u", of.u)


def fault(name, call):
    try:
        call()
        say(name, "none ")
    except r.Fault as why:
        kind = type(why).__name__.lower()
        say(name, f"{kind} {why.words}")


def wave(i, by, of):
    return float((i * by) % of - of // 2)


def readings():
    return [
        r.Acceleration(
            at_ms=float(i * 20),
            x=0.02 * wave(i, 7, 5),
            y=9.7 + 0.01 * wave(i, 3, 7),
            z=-1.2 + 0.015 * wave(i, 5, 11),
        )
        for i in range(200)
    ]


def still(x, y, z):
    length = math.sqrt(x * x + y * y + z * z)
    x, y, z = x / length, y / length, z / length
    return r.Still(
        up=r.Xyz(x=x, y=y, z=z),
        u_noise=0.02,
        u_rounding=0.0,
        samples=100,
        effective=40.0,
        source=r.StillSource.ACCELERATION(step=0.0),
        acceleration=r.Xyz(x=9.81 * x, y=9.81 * y, z=9.81 * z),
        azimuth=None,
        at_ms=2000.0,
    )


def faces():
    around = r.Surroundings(
        ground=r.ground_looks_level(),
        feet=r.Feet.OFF,
        roundness=r.Roundness.ROUNDED(),
        corner_angle=None,
    )
    read = r.read_still(readings(), 0.0)
    figures("still.up", [read.up.x, read.up.y, read.up.z])
    figure("still.u_noise", read.u_noise)
    fault("still.short", lambda: r.read_still(readings()[:5], 0.0))
    back = readings()
    back[3], back[9] = back[9], back[3]
    fault("still.back", lambda: r.read_still(back, 0.0))
    held = r.FaceReading.HELD(still=read, side=r.Side.BACK)
    face = r.face_angle([held], None, around)
    measured("face.unzeroed", face.rake)
    for part in face.parts:
        figure(f"face.part {part.name}", part.u)
    say("face.caveat", face.caveat or "")
    poses = [
        r.PoseReading(pose=pose, still=still(0.004, y, z))
        for pose, y, z in [
            (r.Pose.BACK_UPRIGHT, 1.0, 0.010),
            (r.Pose.BACK_UPSIDE_DOWN, -1.0, 0.030),
            (r.Pose.SCREEN_IN, 1.0, 0.015),
            (r.Pose.SCREEN_IN_UPSIDE_DOWN, -1.0, 0.025),
        ]
    ]
    zeroing = r.zero_phone(poses, r.Feet.ON, 0.0)
    figures("zeroing", [zeroing.spread, zeroing.was_off_by])
    fault("zeroing.few", lambda: r.zero_phone(poses[:2], r.Feet.ON, 0.0))
    pair = r.BoardPair(
        forward=still(0.010, 0.030, 0.9995), turned=still(-0.004, -0.020, 0.9997)
    )
    around.ground = r.ground_by_board([pair])
    measured("ground.nose_up", around.ground.nose_up)
    measured("ground.right_up", around.ground.right_up)
    around.feet = r.Feet.ON
    around.corner_angle = r.Measured(value=20.0, u=3.0, plus_minus=5.88)
    measured("face.zeroed", r.face_angle([held], zeroing.json, around).rake)
    typed = r.FaceReading.TYPED(angle=-6.3, plus_minus=0.3)
    measured("face.typed", r.face_angle([typed], None, around).rake)
    fault("face.none", lambda: r.face_angle([], None, around))
    fault("face.zeroing", lambda: r.face_angle([typed], "no", around))


def fitting():
    facts = r.read_kit(KIT)
    say("kit", f"{facts.name} {' '.join(facts.rings)}")
    fault("kit.none", lambda: r.read_kit("{}"))
    for name, value, u in [("sure", -6.3, 0.2), ("close", -6.3, 2.3), ("none", -40.0, 0.2)]:
        rake = r.Measured(value=value, u=u, plus_minus=1.96 * u)
        choice = r.ring_set(
            KIT, rake, r.FaceOrigin.ZEROED, r.PanelMaterial.PLASTIC, 1.0, None
        )
        if choice.aim is not None:
            measured(f"ring.{name}.aim", choice.aim)
        verdict = choice.verdict
        if verdict.is_sure():
            words = f"sure {verdict.set.ring}"
        elif verdict.is_close_call():
            rings = " ".join(right.set.ring for right in verdict.right_somewhere)
            words = f"close {rings} {' '.join(verdict.settle)}"
        else:
            words = f"none {verdict.what_to_do}"
        say(f"ring.{name}", words)
    task = r.mark_out_task(KIT, 864.0, 871.0)
    plans = r.mark_out(task)
    for name in ["symmetric", "even", "wide"]:
        plan = getattr(plans, name)
        figures(f"marks.{name}", plan.marks)
        say(f"marks.{name}", " ".join(plan.explained))
    say("marks.proposal", plans.proposal)
    task.no_drill.append(r.NoDrillArea(_from=-700.0, to=700.0, what="grille"))
    fault("marks.clash", lambda: r.mark_out(task))
    task.half_left = math.nan
    fault("marks.no_figure", lambda: r.mark_out(task))


def photos():
    files = [
        open(f"tests/fixtures/photo/{name}.jpg", "rb").read()
        for name in ["left", "middle", "right"]
    ]
    found = r.measure_photos(files, 4, 249.5)
    rounded = lambda value: math.floor(value * 1e3 + 0.5) / 1e3
    for gap in found.gaps + [found.width]:
        figures(
            f"photo.{gap.left}-{gap.right}",
            [rounded(gap.chord.value), rounded(gap.along.value)],
        )
    fault("photo.none", lambda: r.measure_photos([b"no photo"], 4, None))
    fault("photo.line", lambda: r.measure_photos([], 4, 100.0))


def jobs():
    job = r.read_record(RECORD)
    say("job", f"{job.name} {job.kit}")
    for spot in job.spots:
        figure(f"job.{spot.label}.mark", spot.mark or 0.0)
        if spot.face is not None:
            measured(f"job.{spot.label}.face", spot.face.rake)
    fault("job.none", lambda: r.read_record("[]"))
    found = r.diagnose(RECORD)
    say("diagnosis", found.outcome)
    for suspect in found.suspects[:5]:
        say("suspect", f"{suspect.points} {suspect.name} {' '.join(suspect.for_it)}")
    seen = r.coverage(RECORD)
    figure("coverage.share", seen.share or 0.0)
    figures("coverage.level", seen.levels[:8])


def cabin():
    seed = 1
    sound = []
    for i in range(40_000):
        seed = (seed * 1_664_525 + 1_013_904_223) & 0xFFFF_FFFF
        noise = float(seed >> 16) / 65_536.0 - 0.5
        sounds = 8_000 <= i < 11_200 or 20_000 <= i < 23_200
        angle = 2.0 * math.pi * 2_150.0 * i / 16_000.0
        tone = 0.2 * math.sin(angle) if sounds else 0.0
        sound.append(struct.unpack("f", struct.pack("f", 0.01 * noise + tone))[0])
    return sound


def sounds():
    heard = r.hear_beeps(cabin(), 16_000.0, 0.0, 2_150.0)
    for beep in heard.beeps:
        figures(
            "beep",
            [math.floor(x + 0.5) for x in (beep.start_ms, beep.end_ms, beep.tone_hz)],
        )
    fault("beep.rate", lambda: r.hear_beeps([], 1.0, 0.0, None))
    moments = []
    at = 0.0
    start = 0.0

    def then(after, what):
        nonlocal at
        at += after
        moments.append(r.LearnMoment(at_ms=at, what=what))
        return at

    happened = r.LearnHappened
    for cycle in range(6):
        start = then(1000.0, happened.REVERSE_IN())
        then(
            900.0,
            happened.BEEP(start_ms=start + 600.0, end_ms=start + 800.0, tone_hz=2150.0),
        )
        then(300.0, happened.LISTENED())
        if cycle < 5:
            then(600.0, happened.REVERSE_OUT())
    for _ in range(12):
        then(500.0, happened.LISTENED())
    done = r.obstacle_learn(KIT, r.LearnWays.BOTH, moments)
    say("learn", f"{str(done.proved).lower()} {done.outcome}")
    say("learn.summary", done.summary)
    kept = [moment for moment in moments if moment.at_ms <= start]
    kept.append(r.LearnMoment(at_ms=start + 100.0, what=happened.KILLED()))
    done = r.obstacle_learn(KIT, r.LearnWays.BOTH, kept)
    say("learn.killed", f"{str(done.proved).lower()} {done.outcome}")


faces()
fitting()
photos()
jobs()
sounds()
