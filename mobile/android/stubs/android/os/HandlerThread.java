package android.os;

public class HandlerThread extends Thread {
    public HandlerThread(String name) { throw new UnsupportedOperationException(); }
    public Looper getLooper() { throw new UnsupportedOperationException(); }
    public boolean quitSafely() { throw new UnsupportedOperationException(); }
}
