package app.rakeline.host

import android.media.AudioAttributes
import android.media.AudioFormat
import android.media.AudioTrack
import app.rakeline.phone.PhoneNote
import app.rakeline.phone.PhoneTone
import kotlin.math.PI
import kotlin.math.asin
import kotlin.math.sign
import kotlin.math.sin

/** The loudspeaker. */
class Tones {
    private var playing: AudioTrack? = null

    @Synchronized
    fun sound(shape: PhoneTone, notes: List<PhoneNote>) {
        close()
        val frames = frames(shape, notes)
        if (frames.isEmpty()) return
        val track = AudioTrack.Builder()
            .setAudioAttributes(
                AudioAttributes.Builder()
                    .setUsage(AudioAttributes.USAGE_ASSISTANCE_SONIFICATION)
                    .build(),
            )
            .setAudioFormat(
                AudioFormat.Builder()
                    .setEncoding(AudioFormat.ENCODING_PCM_16BIT)
                    .setSampleRate(RATE)
                    .setChannelMask(AudioFormat.CHANNEL_OUT_MONO)
                    .build(),
            )
            .setTransferMode(AudioTrack.MODE_STATIC)
            .setBufferSizeInBytes(2 * frames.size)
            .build()
        track.write(frames, 0, frames.size)
        track.play()
        playing = track
    }

    @Synchronized
    fun close() {
        playing?.release()
        playing = null
    }

    companion object {
        const val RATE = 44_100
        private const val LOUDNESS = 0.35

        /** Seconds in which a note swells and fades, so that it does not click. */
        private const val RAMP = 0.01

        /** Notes as 16-bit frames. */
        fun frames(shape: PhoneTone, notes: List<PhoneNote>): ShortArray {
            val last = notes.maxOfOrNull { it.toMs } ?: return ShortArray(0)
            val frames = ShortArray((last * RATE / 1e3).toInt().coerceIn(0, 10 * RATE))
            for (note in notes) {
                val from = (note.fromMs * RATE / 1e3).toInt().coerceAtLeast(0)
                val to = (note.toMs * RATE / 1e3).toInt().coerceAtMost(frames.size)
                for (i in from until to) {
                    val wave = sin(2 * PI * note.hertz * (i - from) / RATE)
                    val level = when (shape) {
                        PhoneTone.SINE -> wave
                        PhoneTone.TRIANGLE -> 2 / PI * asin(wave)
                        PhoneTone.SQUARE -> sign(wave)
                    }
                    val edge = minOf(i - from, to - 1 - i) / (RAMP * RATE)
                    val loud = LOUDNESS * minOf(1.0, edge)
                    frames[i] = (level * loud * Short.MAX_VALUE).toInt().toShort()
                }
            }
            return frames
        }
    }
}
