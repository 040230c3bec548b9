package android.os;

public abstract class VibrationEffect {
    public static VibrationEffect createWaveform(long[] timings, int repeat) { throw new UnsupportedOperationException(); }
}
