package android.view;

public interface WindowManager {
    Display getDefaultDisplay();

    class LayoutParams {
        public static final int FLAG_KEEP_SCREEN_ON = 0x00000080;
    }
}
