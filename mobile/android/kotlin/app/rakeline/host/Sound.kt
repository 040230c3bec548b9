package app.rakeline.host

import android.Manifest
import android.media.AudioFormat
import android.media.AudioRecord
import android.media.MediaRecorder
import android.os.SystemClock
import app.rakeline.R
import app.rakeline.phone.SoundFault
import app.rakeline.phone.soundCame
import app.rakeline.phone.soundEnded
import app.rakeline.phone.soundStarted
import java.nio.ByteBuffer
import kotlin.concurrent.thread

/** The microphone, 16 kHz mono, without the system's own filters: they eat beeps. */
class Sound(private val permissions: Permissions) {
    @Volatile
    private var running: ULong? = null

    fun start(run: ULong) {
        running = run
        permissions.with(Manifest.permission.RECORD_AUDIO, R.string.reason_microphone) { granted ->
            when {
                running != run -> Unit
                granted -> thread(name = "sound") { listen(run) }
                else -> soundEnded(run, SoundFault.Refused)
            }
        }
    }

    fun stop() {
        running = null
    }

    private fun listen(run: ULong) {
        val least = AudioRecord.getMinBufferSize(
            RATE, AudioFormat.CHANNEL_IN_MONO, AudioFormat.ENCODING_PCM_16BIT,
        )
        if (least <= 0) return soundEnded(run, SoundFault.NoMicrophone)
        val record = try {
            AudioRecord(
                MediaRecorder.AudioSource.UNPROCESSED, RATE, AudioFormat.CHANNEL_IN_MONO,
                AudioFormat.ENCODING_PCM_16BIT, maxOf(least, BUFFER),
            )
        } catch (fault: IllegalArgumentException) {
            return soundEnded(run, SoundFault.Failed(fault.message ?: "AudioRecord"))
        }
        try {
            if (record.state != AudioRecord.STATE_INITIALIZED) {
                return soundEnded(run, SoundFault.Taken)
            }
            record.startRecording()
            if (record.recordingState != AudioRecord.RECORDSTATE_RECORDING) {
                return soundEnded(run, SoundFault.Taken)
            }
            soundStarted(run, record.sampleRate.toDouble())
            frames(run, record)
        } finally {
            record.release()
        }
    }

    private fun frames(run: ULong, record: AudioRecord) {
        // Direct: the app reads it where it lies.
        val buffer = ByteBuffer.allocateDirect(CHUNK)
        var first = 0L
        while (running == run) {
            buffer.clear()
            val got = record.read(buffer, CHUNK)
            if (got < 0) return soundEnded(run, SoundFault.Ended)
            // A read may come late; the number of the frame does not.
            val arrived = SystemClock.elapsedRealtimeNanos() / 1e6
            buffer.limit(got)
            if (got > 0) soundCame(run, buffer, first.toDouble(), arrived)
            first += got / 2
        }
    }

    private companion object {
        const val RATE = 16_000

        /** Bytes of a tenth of a second. */
        const val CHUNK = 3_200
        const val BUFFER = 16 * CHUNK
    }
}
