package app.rakeline.test

import app.rakeline.host.Batch
import app.rakeline.host.Tones
import app.rakeline.phone.*
import java.awt.image.BufferedImage
import java.io.ByteArrayOutputStream
import java.io.File
import java.nio.ByteBuffer
import java.nio.ByteOrder
import javax.imageio.ImageIO
import kotlin.concurrent.thread
import kotlin.math.PI
import kotlin.math.sin

/** The host's side and the app's side together, without a screen. */
class PhoneTests(private val scratch: File) {
    private fun folder(name: String) = File(scratch, name).apply {
        deleteRecursively()
        mkdirs()
    }

    /** Lines of the app's log, once the last of them is there. */
    private fun Rehearsal.until(last: (String) -> Boolean): List<String> {
        val said = ArrayList<String>()
        repeat(1_000) {
            said += log()
            if (said.any(last)) return said
            Thread.sleep(5)
        }
        throw AssertionError("waited in vain; said so far: $said")
    }

    private fun check(holds: Boolean, what: Any) {
        if (!holds) throw AssertionError(what.toString())
    }

    /** 50 readings a second of a phone at rest, through the host's own batching. */
    private fun feed(run: ULong, source: TiltSource, from: Long = 0) {
        val batch = Batch(run, source, 0.0024)
        for (i in 0 until 250) {
            val at = (from + i) * 20_000_000L
            val wave = 0.004f * (i * 7 % 5 - 2)
            batch.add(at, floatArrayOf(0.1f + wave, 9.7f - wave, -1.2f + wave))
        }
    }

    fun tiltBatchesFromAThreadBecomeAReading() {
        val phone = object : FakePhone(folder("tilt")) {
            override fun startTilt(run: ULong, wanted: TiltWanted) {
                super.startTilt(run, wanted)
                thread { feed(run, TiltSource.ACCELERATION) }
            }
        }
        Rehearsal(phone).use { app ->
            app.readTilt()
            val said = app.until { it.startsWith("still") }
            check(said.first() == "using Acceleration", said)
            val up = said.first { it.startsWith("still") }.split(" ").drop(1).map { it.toDouble() }
            check(up[1] in 0.99..0.995 && up[2] in -0.13..-0.12, up)
            while ("no tilt" !in phone.asked) Thread.sleep(5)
        }
    }

    fun aBatchWhoseTimesGoBackIsLeftOutAndTheNextIsTaken() {
        val phone = object : FakePhone(folder("back")) {
            override fun startTilt(run: ULong, wanted: TiltWanted) {
                val late = listOf(TiltReading(5_000.0, 0.0, 9.8, 0.0, 0.0))
                tiltCame(run, TiltSource.ACCELERATION, 0.0, late)
                val early = listOf(TiltReading(4_000.0, 0.0, 9.8, 0.0, 0.0))
                tiltCame(run, TiltSource.ACCELERATION, 0.0, early)
                feed(run, TiltSource.ACCELERATION, from = 300)
            }
        }
        Rehearsal(phone).use { app ->
            app.readTilt()
            val said = app.until { it.startsWith("still") }
            check("left out TimeWentBack" in said, said)
        }
    }

    fun aPhoneWithoutSensorsSaysSo() {
        val phone = object : FakePhone(folder("none")) {
            override fun startTilt(run: ULong, wanted: TiltWanted) = throw PhoneFault.Missing()
        }
        Rehearsal(phone).use { app ->
            app.readTilt()
            check(app.until { it.startsWith("fault") } == listOf("fault NoSensor"), "no fault")
        }
    }

    fun aCallbackThatThrowsIsAFaultAndNotTheEnd() {
        val phone = object : FakePhone(folder("throws")) {
            override fun startTilt(run: ULong, wanted: TiltWanted) = throw IllegalStateException("gone")
            override fun share(wish: ULong, file: SharedFile) = throw IllegalStateException("torn")
        }
        Rehearsal(phone).use { app ->
            app.readTilt()
            check(app.until { it.startsWith("fault") } == listOf("fault Stopped"), "no fault")
            app.share("sheet.pdf")
            val said = app.until { it.startsWith("shared") }
            check("torn" in said.last(), said)
            app.keep("a", "1")
            app.until { it == "kept" }
        }
    }

    private fun jpeg(): ByteArray = ByteArrayOutputStream().also {
        ImageIO.write(BufferedImage(64, 48, BufferedImage.TYPE_INT_RGB), "jpg", it)
    }.toByteArray()

    private fun pictured(name: String, outcome: PictureOutcome): String {
        val phone = object : FakePhone(folder(name)) {
            override fun takePicture(wish: ULong) {
                thread { pictureCame(wish, outcome) }
            }
        }
        return Rehearsal(phone).use { app ->
            app.takePicture()
            app.until { true }.single()
        }
    }

    fun aPictureComesFromAnotherThread() {
        val said = pictured("picture", PictureOutcome.Taken(jpeg()))
        check(said == "picture 64 x 48", said)
    }

    fun aCameraAppThatGivesNothingIsNoPicture() {
        val said = pictured("nothing", PictureOutcome.Nothing)
        check(said == "no picture", said)
        val broken = pictured("broken", PictureOutcome.Taken(ByteArray(0)))
        check(broken.startsWith("fault "), broken)
    }

    fun aPermissionDeniedForGoodIsSaidInWords() {
        val said = pictured("denied", PictureOutcome.Refused)
        check(said.startsWith("fault ") && said.length > 20, said)
    }

    fun aShareWithoutATakerIsSaidInWords() {
        val phone = object : FakePhone(folder("share")) {
            override fun share(wish: ULong, file: SharedFile) {
                thread { shareDone(wish, ShareOutcome.NoTaker) }
            }
        }
        Rehearsal(phone).use { app ->
            app.share("job sheet.pdf")
            val said = app.until { it.startsWith("shared") }.last()
            check("job sheet.pdf" in said, said)
        }
    }

    fun beepsAreHeardInPcmFrames() {
        val phone = object : FakePhone(folder("sound")) {
            override fun startSound(run: ULong) {
                thread {
                    soundStarted(run, 16_000.0)
                    var seed = 1u
                    for (chunk in 0 until 30) {
                        val frames = ByteBuffer.allocateDirect(3_200).order(ByteOrder.LITTLE_ENDIAN)
                        for (j in 0 until 1_600) {
                            val i = chunk * 1_600 + j
                            seed = seed * 1_664_525u + 1_013_904_223u
                            val noise = (seed shr 16).toDouble() / 65_536.0 - 0.5
                            val on = i in 8_000 until 11_200
                            val tone = if (on) 0.2 * sin(2 * PI * 2_150 * i / 16_000) else 0.0
                            frames.putShort(((0.01 * noise + tone) * 32_767).toInt().toShort())
                        }
                        frames.flip()
                        // Every other batch comes late, as a busy phone brings it.
                        val late = if (chunk % 2 == 1) 90.0 else 0.0
                        soundCame(run, frames, chunk * 1_600.0, (chunk + 1) * 100.0 + late)
                    }
                    soundEnded(run, SoundFault.Taken)
                }
            }
        }
        Rehearsal(phone).use { app ->
            app.listen()
            val said = app.until { it.startsWith("fault") }
            check(said.first() == "listens 16000" && said.last() == "fault Taken", said)
            check(said.count { it == "beep 2150" } == 1, said)
        }
    }

    fun whatWasKeptIsThereAfterAProcessDeath() {
        val place = folder("death")
        Rehearsal(FakePhone(place)).use { app ->
            app.keep("job/1", "kept before")
            app.until { it == "kept" }
        }
        // As it lies when the app is ended in the middle of a commit: written
        // down whole, not carried out yet.
        File(place, "journal").writeText("""[{"key":"job/1","value":"kept last"}]""")
        Rehearsal(FakePhone(place, "/job/1/marks")).use { app ->
            app.find("job/1")
            val said = app.until { it.startsWith("found") }.last()
            check("kept last" in said, said)
            app.go("/job/1/faces")
            app.until { it == "at /job/1/faces" }
            backPressed()
            app.until { it == "back at /job/1/marks" }
            check(path() == "/job/1/marks", path())
        }
    }

    fun fullStorageIsSaidAndLosesNothing() {
        val place = folder("full")
        val app = Rehearsal(FakePhone(place))
        app.keep("a", "1")
        app.until { it == "kept" }
        // No folder can be made where a file lies.
        File(place, "records").deleteRecursively()
        File(place, "records").writeText("")
        app.keep("a", "2")
        val said = app.until { it.startsWith("fault") }.last()
        check(said.length > 20, said)
        File(place, "records").delete()
        // What was written down is carried out once there is room.
        app.find("a")
        check("\"2\"" in app.until { it.startsWith("found") }.last(), "lost")
        app.close()
    }

    fun backWithoutAStepLeavesTheScreen() {
        val phone = FakePhone(folder("leave"))
        Rehearsal(phone).use { app ->
            app.go("/settings")
            app.until { it == "at /settings" }
            backPressed()
            app.until { it == "back at /" }
            backPressed()
            repeat(400) { if ("leave" !in phone.asked) Thread.sleep(5) }
            check("leave" in phone.asked, phone.asked)
        }
    }

    fun aRotationWithoutItsFourthFigureGetsIt() {
        val sent = ArrayList<TiltReading>()
        val batch = Batch(1u, TiltSource.ROTATION, 0.1) { _, _, step, readings ->
            check(step == 0.0, step)
            sent += readings
        }
        batch.add(100_000_000, floatArrayOf(0.6f, 0f, 0f))
        batch.add(200_000_000, floatArrayOf(0.6f, 0f, 0f, 0.8f))
        batch.add(300_000_000, floatArrayOf(0.6f, 0f))
        check(sent.size == 2 && sent.all { Math.abs(it.w - 0.8) < 1e-6 }, sent)
        check(sent.map { it.atMs } == listOf(100.0, 200.0), sent)
    }

    fun tonesBeginAndEndWithoutAClick() {
        val notes = listOf(PhoneNote(0.0, 90.0, 880.0), PhoneNote(100.0, 240.0, 1_320.0))
        for (shape in PhoneTone.entries) {
            val frames = Tones.frames(shape, notes)
            check(frames.size == Tones.RATE * 240 / 1_000, frames.size)
            check(frames.first() == 0.toShort() && Math.abs(frames.last().toInt()) < 1_500, shape)
            check(frames.maxOf { it.toInt() } in 11_000..11_500, shape)
        }
        check(Tones.frames(PhoneTone.SINE, emptyList()).isEmpty(), "no notes")
    }

    /** Every test by its name. */
    fun all(): List<Pair<String, () -> Unit>> = listOf(
        ::tiltBatchesFromAThreadBecomeAReading,
        ::aBatchWhoseTimesGoBackIsLeftOutAndTheNextIsTaken,
        ::aPhoneWithoutSensorsSaysSo,
        ::aCallbackThatThrowsIsAFaultAndNotTheEnd,
        ::aPictureComesFromAnotherThread,
        ::aCameraAppThatGivesNothingIsNoPicture,
        ::aPermissionDeniedForGoodIsSaidInWords,
        ::aShareWithoutATakerIsSaidInWords,
        ::beepsAreHeardInPcmFrames,
        ::whatWasKeptIsThereAfterAProcessDeath,
        ::fullStorageIsSaidAndLosesNothing,
        ::backWithoutAStepLeavesTheScreen,
        ::aRotationWithoutItsFourthFigureGetsIt,
        ::tonesBeginAndEndWithoutAClick,
    ).map { it.name to it }
}
