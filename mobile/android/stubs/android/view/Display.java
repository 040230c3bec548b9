package android.view;

public final class Display {
    public int getRotation() { throw new UnsupportedOperationException(); }
}
