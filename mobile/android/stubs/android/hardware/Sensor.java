package android.hardware;

public final class Sensor {
    public static final int TYPE_ACCELEROMETER = 1;
    public static final int TYPE_GRAVITY = 9;
    public static final int TYPE_GAME_ROTATION_VECTOR = 15;
    public static final int TYPE_ACCELEROMETER_UNCALIBRATED = 35;
    public float getResolution() { throw new UnsupportedOperationException(); }
}
