package app.rakeline.test

import app.rakeline.phone.Phone
import app.rakeline.phone.PhoneFacts
import app.rakeline.phone.PhoneFault
import app.rakeline.phone.PhoneNote
import app.rakeline.phone.PhoneTone
import app.rakeline.phone.SharedFile
import app.rakeline.phone.TiltWanted
import java.io.File
import java.util.concurrent.CopyOnWriteArrayList

/** A phone that does what the test says. */
open class FakePhone(private val folder: File, private val path: String = "") : Phone {
    /** What was asked, in order. */
    val asked = CopyOnWriteArrayList<String>()

    override fun facts() = PhoneFacts(folder.path, "Fake phone", "Europe/Paris", path)
    override fun minutesAhead(atMs: Long) = 60
    override fun elapsedMs() = System.nanoTime() / 1e6
    override fun startTilt(run: ULong, wanted: TiltWanted) { asked.add("tilt") }
    override fun stopTilt() { asked.add("no tilt") }
    override fun startSound(run: ULong) { asked.add("sound") }
    override fun stopSound() { asked.add("no sound") }
    override fun takePicture(wish: ULong) { asked.add("picture") }
    override fun choosePicture(wish: ULong) { asked.add("choose") }
    override fun openText(wish: ULong, most: ULong) { asked.add("text") }
    override fun share(wish: ULong, file: SharedFile) { asked.add("share ${file.name}") }
    override fun say(words: String) { asked.add("say $words") }
    override fun hush() { asked.add("hush") }
    override fun sound(shape: PhoneTone, notes: List<PhoneNote>) { asked.add("notes") }
    override fun pulse(pattern: List<UInt>) { asked.add("pulse") }
    override fun holdAwake() { asked.add("awake") }
    override fun letSleep() { asked.add("asleep") }
    override fun screenAngle() = 0.0
    override fun print() { throw PhoneFault.Missing() }
    override fun leave() { asked.add("leave") }
}
