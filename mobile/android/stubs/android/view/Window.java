package android.view;

public abstract class Window {
    public void addFlags(int flags) { throw new UnsupportedOperationException(); }
    public void clearFlags(int flags) { throw new UnsupportedOperationException(); }
}
