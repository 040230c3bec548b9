package app.rakeline.host

import android.content.Context
import android.os.VibrationEffect
import android.os.Vibrator

/** Pulses in the hand. */
class Hand(context: Context) {
    @Suppress("DEPRECATION")
    private val motor = context.getSystemService(Context.VIBRATOR_SERVICE) as? Vibrator

    /** Milliseconds on, off, on. */
    fun pulse(pattern: List<UInt>) {
        val motor = motor ?: return
        if (!motor.hasVibrator() || pattern.isEmpty()) return
        // The system counts from a pause.
        val times = LongArray(pattern.size + 1)
        pattern.forEachIndexed { i, ms -> times[i + 1] = ms.toLong() }
        motor.vibrate(VibrationEffect.createWaveform(times, -1))
    }
}
