package app.rakeline.test

import app.rakeline.core.*
import java.io.File
import java.util.Locale
import kotlin.math.PI
import kotlin.math.floor
import kotlin.math.sin
import kotlin.math.sqrt

/** The list of `tests/ffi/vectors.rs`, computed through the Kotlin side of the core. */
class Vectors(private val root: File) {
    private val lines = ArrayList<String>()
    private val kit = text("assets/kits/plain-four.json")
    private val record = text("tests/fixtures/ffi/record.json")

    private fun text(path: String) = File(root, path).readText()

    private fun say(name: String, words: String) {
        lines.add("$name ${words.replace("\n", " / ")}")
    }

    private fun figure(name: String, value: Double) =
        say(name, String.format(Locale.ROOT, "%.9f", value))

    private fun figures(name: String, values: List<Double>) =
        values.forEachIndexed { index, value -> figure("$name.$index", value) }

    private fun measured(name: String, of: Measured) {
        figure("$name.value", of.value)
        figure("$name.u", of.u)
    }

    private fun fault(name: String, call: () -> Unit) = try {
        call()
        say(name, "none ")
    } catch (why: Fault) {
        when (why) {
            is Fault.Unreadable -> say(name, "unreadable ${why.words}")
            is Fault.Invalid -> say(name, "invalid ${why.words}")
            is Fault.Impossible -> say(name, "impossible ${why.words}")
        }
    }

    private fun wave(i: Int, by: Int, of: Int) = ((i * by) % of - of / 2).toDouble()

    private fun readings() = MutableList(200) { i ->
        Acceleration(
            atMs = (i * 20).toDouble(),
            x = 0.02 * wave(i, 7, 5),
            y = 9.7 + 0.01 * wave(i, 3, 7),
            z = -1.2 + 0.015 * wave(i, 5, 11),
        )
    }

    private fun still(ax: Double, ay: Double, az: Double): Still {
        val length = sqrt(ax * ax + ay * ay + az * az)
        val (x, y, z) = listOf(ax / length, ay / length, az / length)
        return Still(
            up = Xyz(x, y, z),
            uNoise = 0.02,
            uRounding = 0.0,
            samples = 100u,
            effective = 40.0,
            source = StillSource.Acceleration(0.0),
            acceleration = Xyz(9.81 * x, 9.81 * y, 9.81 * z),
            azimuth = null,
            atMs = 2000.0,
        )
    }

    private fun faces() {
        var around = Surroundings(groundLooksLevel(), Feet.OFF, Roundness.Rounded, null)
        val read = readStill(readings(), 0.0)
        figures("still.up", listOf(read.up.x, read.up.y, read.up.z))
        figure("still.u_noise", read.uNoise)
        fault("still.short") { readStill(readings().subList(0, 5), 0.0) }
        val back = readings()
        back[3] = back[9].also { back[9] = back[3] }
        fault("still.back") { readStill(back, 0.0) }
        val held = FaceReading.Held(read, Side.BACK)
        val face = faceAngle(listOf(held), null, around)
        measured("face.unzeroed", face.rake)
        for (part in face.parts) figure("face.part ${part.name}", part.u)
        say("face.caveat", face.caveat ?: "")
        val poses = listOf(
            PoseReading(Pose.BACK_UPRIGHT, still(0.004, 1.0, 0.010)),
            PoseReading(Pose.BACK_UPSIDE_DOWN, still(0.004, -1.0, 0.030)),
            PoseReading(Pose.SCREEN_IN, still(0.004, 1.0, 0.015)),
            PoseReading(Pose.SCREEN_IN_UPSIDE_DOWN, still(0.004, -1.0, 0.025)),
        )
        val zeroing = zeroPhone(poses, Feet.ON, 0.0)
        figures("zeroing", listOf(zeroing.spread, zeroing.wasOffBy))
        fault("zeroing.few") { zeroPhone(poses.subList(0, 2), Feet.ON, 0.0) }
        val pair = BoardPair(still(0.010, 0.030, 0.9995), still(-0.004, -0.020, 0.9997))
        val ground = groundByBoard(listOf(pair))
        measured("ground.nose_up", ground.noseUp)
        measured("ground.right_up", ground.rightUp)
        around = Surroundings(ground, Feet.ON, Roundness.Rounded, Measured(20.0, 3.0, 5.88))
        measured("face.zeroed", faceAngle(listOf(held), zeroing.json, around).rake)
        val typed = FaceReading.Typed(-6.3, 0.3)
        measured("face.typed", faceAngle(listOf(typed), null, around).rake)
        fault("face.none") { faceAngle(emptyList(), null, around) }
        fault("face.zeroing") { faceAngle(listOf(typed), "no", around) }
    }

    private fun rings() {
        val facts = readKit(kit)
        say("kit", "${facts.name} ${facts.rings.joinToString(" ")}")
        fault("kit.none") { readKit("{}") }
        for ((name, value, u) in listOf(
            Triple("sure", -6.3, 0.2), Triple("close", -6.3, 2.3), Triple("none", -40.0, 0.2),
        )) {
            val rake = Measured(value, u, 1.96 * u)
            val choice = ringSet(kit, rake, FaceOrigin.ZEROED, PanelMaterial.PLASTIC, 1.0, null)
            choice.aim?.let { measured("ring.$name.aim", it) }
            say(
                "ring.$name",
                when (val verdict = choice.verdict) {
                    is RingVerdict.Sure -> "sure ${verdict.set.ring}"
                    is RingVerdict.CloseCall -> {
                        val rings = verdict.rightSomewhere.joinToString(" ") { it.set.ring }
                        "close $rings ${verdict.settle.joinToString(" ")}"
                    }
                    is RingVerdict.CannotBeServed -> "none ${verdict.whatToDo}"
                },
            )
        }
    }

    private fun marks() {
        val task = markOutTask(kit, 864.0, 871.0)
        val plans = markOut(task)
        for ((name, plan) in listOf(
            "symmetric" to plans.symmetric, "even" to plans.even, "wide" to plans.wide,
        )) {
            figures("marks.$name", plan.marks)
            say("marks.$name", plan.explained.joinToString(" "))
        }
        say("marks.proposal", plans.proposal)
        val clash = task.copy(noDrill = listOf(NoDrillArea(-700.0, 700.0, "grille")))
        fault("marks.clash") { markOut(clash) }
        fault("marks.no_figure") { markOut(clash.copy(halfLeft = Double.NaN)) }
    }

    private fun photos() {
        val files = listOf("left", "middle", "right")
            .map { File(root, "tests/fixtures/photo/$it.jpg").readBytes() }
        val found = measurePhotos(files, 4u, 249.5)
        val rounded = { value: Double -> floor(value * 1e3 + 0.5) / 1e3 }
        for (gap in found.gaps + found.width) {
            figures(
                "photo.${gap.left}-${gap.right}",
                listOf(rounded(gap.chord.value), rounded(gap.along.value)),
            )
        }
        fault("photo.none") { measurePhotos(listOf("no photo".toByteArray()), 4u, null) }
        fault("photo.line") { measurePhotos(emptyList(), 4u, 100.0) }
    }

    private fun jobs() {
        val job = readRecord(record)
        say("job", "${job.name} ${job.kit}")
        for (spot in job.spots) {
            figure("job.${spot.label}.mark", spot.mark ?: 0.0)
            spot.face?.let { measured("job.${spot.label}.face", it.rake) }
        }
        fault("job.none") { readRecord("[]") }
        val found = diagnose(record)
        say("diagnosis", found.outcome)
        for (suspect in found.suspects.take(5)) {
            say("suspect", "${suspect.points} ${suspect.name} ${suspect.forIt.joinToString(" ")}")
        }
        val seen = coverage(record)
        figure("coverage.share", seen.share ?: 0.0)
        figures("coverage.level", seen.levels.take(8))
    }

    private fun cabin(): List<Float> {
        var seed = 1u
        return List(40_000) { i ->
            seed = seed * 1_664_525u + 1_013_904_223u
            val noise = (seed shr 16).toDouble() / 65_536.0 - 0.5
            val sounds = i in 8_000 until 11_200 || i in 20_000 until 23_200
            val tone = if (sounds) 0.2 * sin(2.0 * PI * 2_150.0 * i / 16_000.0) else 0.0
            (0.01 * noise + tone).toFloat()
        }
    }

    private fun sounds() {
        for (beep in hearBeeps(cabin(), 16_000.0, 0.0, 2_150.0).beeps) {
            figures("beep", listOf(beep.startMs, beep.endMs, beep.toneHz).map { floor(it + 0.5) })
        }
        fault("beep.rate") { hearBeeps(emptyList(), 1.0, 0.0, null) }
        val moments = ArrayList<LearnMoment>()
        var at = 0.0
        var start = 0.0
        fun then(after: Double, what: LearnHappened): Double {
            at += after
            moments.add(LearnMoment(at, what))
            return at
        }
        for (cycle in 0 until 6) {
            start = then(1_000.0, LearnHappened.ReverseIn)
            then(900.0, LearnHappened.Beep(start + 600.0, start + 800.0, 2_150.0))
            then(300.0, LearnHappened.Listened)
            if (cycle < 5) then(600.0, LearnHappened.ReverseOut)
        }
        repeat(12) { then(500.0, LearnHappened.Listened) }
        val done = obstacleLearn(kit, LearnWays.BOTH, moments)
        say("learn", "${done.proved} ${done.outcome}")
        say("learn.summary", done.summary)
        val kept = moments.filter { it.atMs <= start } +
            LearnMoment(start + 100.0, LearnHappened.Killed)
        val killed = obstacleLearn(kit, LearnWays.BOTH, kept)
        say("learn.killed", "${killed.proved} ${killed.outcome}")
    }

    /** All lines, in the order of the kept list. */
    fun computed(): List<String> {
        faces()
        rings()
        marks()
        photos()
        jobs()
        sounds()
        return lines
    }
}
