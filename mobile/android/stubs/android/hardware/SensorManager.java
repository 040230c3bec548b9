package android.hardware;

import android.os.Handler;

public abstract class SensorManager {
    public Sensor getDefaultSensor(int type) { throw new UnsupportedOperationException(); }
    public boolean registerListener(SensorEventListener listener, Sensor sensor, int samplingPeriodUs, int maxReportLatencyUs, Handler handler) { throw new UnsupportedOperationException(); }
    public void unregisterListener(SensorEventListener listener) { throw new UnsupportedOperationException(); }
}
