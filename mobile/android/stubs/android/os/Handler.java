package android.os;

public class Handler {
    public Handler(Looper looper) { throw new UnsupportedOperationException(); }
}
