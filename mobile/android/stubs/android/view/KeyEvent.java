package android.view;

public class KeyEvent {
    public static final int KEYCODE_BACK = 4;
    public static final int KEYCODE_DPAD_UP = 19;
    public static final int KEYCODE_DPAD_DOWN = 20;
    public static final int KEYCODE_VOLUME_UP = 24;
    public static final int KEYCODE_VOLUME_DOWN = 25;
    public KeyEvent(int action, int code) { throw new UnsupportedOperationException(); }
    public final int getAction() { throw new UnsupportedOperationException(); }
    public final int getKeyCode() { throw new UnsupportedOperationException(); }
    public final int getRepeatCount() { throw new UnsupportedOperationException(); }
}
