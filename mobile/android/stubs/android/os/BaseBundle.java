package android.os;

public class BaseBundle {
    public String getString(String key) { throw new UnsupportedOperationException(); }
    public void putString(String key, String value) { throw new UnsupportedOperationException(); }
}
