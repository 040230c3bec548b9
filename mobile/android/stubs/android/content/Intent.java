package android.content;

import android.net.Uri;
import android.os.Parcelable;

public class Intent {
    public static final String ACTION_GET_CONTENT = "android.intent.action.GET_CONTENT";
    public static final String ACTION_MAIN = "android.intent.action.MAIN";
    public static final String ACTION_OPEN_DOCUMENT = "android.intent.action.OPEN_DOCUMENT";
    public static final String ACTION_SEND = "android.intent.action.SEND";
    public static final String ACTION_VIEW = "android.intent.action.VIEW";
    public static final String CATEGORY_OPENABLE = "android.intent.category.OPENABLE";
    public static final String EXTRA_STREAM = "android.intent.extra.STREAM";
    public static final int FLAG_ACTIVITY_CLEAR_TASK = 0x00008000;
    public static final int FLAG_ACTIVITY_NEW_TASK = 0x10000000;
    public static final int FLAG_GRANT_READ_URI_PERMISSION = 0x00000001;
    public static final int FLAG_GRANT_WRITE_URI_PERMISSION = 0x00000002;
    public Intent(String action) { throw new UnsupportedOperationException(); }
    public Intent(Context packageContext, Class<?> cls) { throw new UnsupportedOperationException(); }
    public String getAction() { throw new UnsupportedOperationException(); }
    public Intent setAction(String action) { throw new UnsupportedOperationException(); }
    public Uri getData() { throw new UnsupportedOperationException(); }
    public Intent setType(String type) { throw new UnsupportedOperationException(); }
    public Intent addCategory(String category) { throw new UnsupportedOperationException(); }
    public Intent addFlags(int flags) { throw new UnsupportedOperationException(); }
    public Intent putExtra(String name, String value) { throw new UnsupportedOperationException(); }
    public Intent putExtra(String name, Parcelable value) { throw new UnsupportedOperationException(); }
    public String getStringExtra(String name) { throw new UnsupportedOperationException(); }
    public static Intent createChooser(Intent target, CharSequence title) { throw new UnsupportedOperationException(); }
}
