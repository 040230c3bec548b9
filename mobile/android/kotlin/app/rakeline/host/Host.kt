package app.rakeline.host

import android.app.Activity
import android.content.Intent
import android.os.Build
import android.os.SystemClock
import android.print.PrintAttributes
import android.print.PrintManager
import android.view.WindowManager
import app.rakeline.R
import app.rakeline.phone.Phone
import app.rakeline.phone.PhoneFacts
import app.rakeline.phone.PhoneFault
import app.rakeline.phone.PhoneNote
import app.rakeline.phone.PhoneTone
import app.rakeline.phone.SharedFile
import app.rakeline.phone.TiltWanted
import java.util.TimeZone

/** The phone, served by an activity. Calls come on the app's thread. */
class Host(
    private val activity: Activity,
    private val shown: HostActivity,
    private val path: String,
) : Phone {
    private val tilt = Tilt(activity)
    private val permissions = Permissions(activity)
    private val sound = Sound(permissions)
    private val tones = Tones()
    private val voice = Voice(activity)
    private val hand = Hand(activity)
    private val files = Files(activity, permissions)

    override fun facts() = PhoneFacts(
        filesFolder = activity.filesDir.absolutePath,
        device = "Android ${Build.VERSION.RELEASE}, ${Build.MODEL}",
        zone = TimeZone.getDefault().id,
        path = path,
    )

    override fun minutesAhead(atMs: Long): Int = TimeZone.getDefault().getOffset(atMs) / 60_000

    /** Sensors count on this clock. */
    override fun elapsedMs(): Double = SystemClock.elapsedRealtimeNanos() / 1e6

    override fun startTilt(run: ULong, wanted: TiltWanted) = tilt.start(run, wanted)

    override fun stopTilt() = tilt.stop()

    override fun startSound(run: ULong) = sound.start(run)

    override fun stopSound() = sound.stop()

    override fun takePicture(wish: ULong) = files.takePicture(wish)

    override fun choosePicture(wish: ULong) = files.choosePicture(wish)

    override fun openText(wish: ULong, most: ULong) = files.openText(wish, most)

    override fun share(wish: ULong, file: SharedFile) = files.share(wish, file)

    override fun say(words: String) = voice.say(words)

    override fun hush() = voice.hush()

    override fun sound(shape: PhoneTone, notes: List<PhoneNote>) = tones.sound(shape, notes)

    override fun pulse(pattern: List<UInt>) = hand.pulse(pattern)

    override fun holdAwake() = activity.runOnUiThread {
        activity.window.addFlags(WindowManager.LayoutParams.FLAG_KEEP_SCREEN_ON)
    }

    override fun letSleep() = activity.runOnUiThread {
        activity.window.clearFlags(WindowManager.LayoutParams.FLAG_KEEP_SCREEN_ON)
    }

    @Suppress("DEPRECATION")
    override fun screenAngle(): Double =
        activity.windowManager.defaultDisplay.rotation * 90.0

    override fun print() {
        val page = shown.page ?: throw PhoneFault.Missing()
        activity.runOnUiThread {
            val printer = activity.getSystemService(Activity.PRINT_SERVICE) as? PrintManager
            val name = activity.getString(R.string.app_name)
            printer?.print(
                name,
                page.createPrintDocumentAdapter(name),
                PrintAttributes.Builder().build(),
            )
        }
    }

    /** The app stays in the background, as the home button leaves it. */
    override fun leave() = activity.runOnUiThread { activity.moveTaskToBack(true) }

    /** What the activity is handed. */
    fun takeFile(intent: Intent?) = files.handedOver(intent)

    fun answered(request: Int, result: Int, data: Intent?) = files.answered(request, result, data)

    fun permitted(request: Int, results: IntArray) = permissions.answered(request, results)

    /** Ends this process and opens the app again where it was. */
    fun startAfresh(path: String) {
        val again = Intent(activity, activity.javaClass)
        again.addFlags(Intent.FLAG_ACTIVITY_NEW_TASK or Intent.FLAG_ACTIVITY_CLEAR_TASK)
        again.putExtra(PATH, path)
        activity.startActivity(again)
        Runtime.getRuntime().exit(0)
    }

    /** The activity is going: nothing of it may be used any more. */
    fun close() {
        tilt.stop()
        sound.stop()
        voice.close()
        tones.close()
    }

    companion object {
        /** Where to open. */
        const val PATH = "path"
    }
}
