package android.os;

public final class Bundle {
    public String getString(String key) { throw new UnsupportedOperationException(); }
    public void putString(String key, String value) { throw new UnsupportedOperationException(); }
}
