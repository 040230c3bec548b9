package app.rakeline.host

import android.content.Context
import android.hardware.Sensor
import android.hardware.SensorEvent
import android.hardware.SensorEventListener
import android.hardware.SensorManager
import android.os.Handler
import android.os.HandlerThread
import app.rakeline.phone.PhoneFault
import app.rakeline.phone.TiltFault
import app.rakeline.phone.TiltReading
import app.rakeline.phone.TiltSource
import app.rakeline.phone.TiltWanted
import app.rakeline.phone.tiltCame
import app.rakeline.phone.tiltEnded

/** A sensor with what its readings are. */
private class Found(val sensor: Sensor, val source: TiltSource)

/** Tilt readings in batches, on a thread of their own. */
class Tilt(context: Context) {
    private val sensors = context.getSystemService(Context.SENSOR_SERVICE) as? SensorManager
    private var thread: HandlerThread? = null
    private var listener: SensorEventListener? = null

    /** Raw acceleration first: gravity as the system computes it hides the chip's own error. */
    private fun find(wanted: TiltWanted): Found? {
        val kinds = when (wanted) {
            TiltWanted.TURN -> listOf(Sensor.TYPE_GAME_ROTATION_VECTOR to TiltSource.ROTATION)
            TiltWanted.UP -> listOf(
                Sensor.TYPE_ACCELEROMETER_UNCALIBRATED to TiltSource.ACCELERATION,
                Sensor.TYPE_ACCELEROMETER to TiltSource.ACCELERATION,
                Sensor.TYPE_GRAVITY to TiltSource.GRAVITY,
            )
        }
        return kinds.firstNotNullOfOrNull { (kind, source) ->
            sensors?.getDefaultSensor(kind)?.let { Found(it, source) }
        }
    }

    fun start(run: ULong, wanted: TiltWanted) {
        stop()
        val found = find(wanted) ?: throw PhoneFault.Missing()
        val batch = Batch(run, found.source, found.sensor.resolution.toDouble())
        val listens = object : SensorEventListener {
            override fun onSensorChanged(event: SensorEvent) {
                batch.add(event.timestamp, event.values)
            }

            override fun onAccuracyChanged(sensor: Sensor, accuracy: Int) = Unit
        }
        val runs = HandlerThread("tilt").apply { start() }
        val taken = sensors?.registerListener(
            listens, found.sensor, PERIOD_US, LATENCY_US, Handler(runs.looper),
        )
        if (taken != true) {
            runs.quitSafely()
            tiltEnded(run, TiltFault.NO_SENSOR)
            return
        }
        thread = runs
        listener = listens
    }

    fun stop() {
        listener?.let { sensors?.unregisterListener(it) }
        thread?.quitSafely()
        listener = null
        thread = null
    }

    private companion object {
        /** 100 readings a second. */
        const val PERIOD_US = 10_000

        /** The app looks ten times a second. */
        const val LATENCY_US = 50_000
    }
}

/** Readings on the way: handed over at most every 50 ms, in the order they came. */
class Batch(
    private val run: ULong,
    private val source: TiltSource,
    private val resolution: Double,
    private val send: (ULong, TiltSource, Double, List<TiltReading>) -> Unit = ::tiltCame,
) {
    private var readings = ArrayList<TiltReading>()
    private var sentNs = 0L

    /** `values`: x, y, z, and w of a rotation; a rotation may come without its w. */
    fun add(timestampNs: Long, values: FloatArray) {
        if (values.size < 3) return
        val x = values[0].toDouble()
        val y = values[1].toDouble()
        val z = values[2].toDouble()
        val w = when {
            source != TiltSource.ROTATION -> 0.0
            values.size > 3 -> values[3].toDouble()
            else -> Math.sqrt(maxOf(0.0, 1.0 - x * x - y * y - z * z))
        }
        readings.add(TiltReading(timestampNs / 1e6, x, y, z, w))
        if (timestampNs - sentNs >= SEND_NS || timestampNs < sentNs) {
            sentNs = timestampNs
            val full = readings
            readings = ArrayList()
            // A rotation's resolution is no angle: the app takes what it sees.
            send(run, source, if (source == TiltSource.ROTATION) 0.0 else resolution, full)
        }
    }

    private companion object {
        const val SEND_NS = 50_000_000L
    }
}
