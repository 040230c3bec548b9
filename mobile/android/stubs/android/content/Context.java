package android.content;

import java.io.File;

public abstract class Context {
    public static final String PRINT_SERVICE = "print";
    public static final String SENSOR_SERVICE = "sensor";
    public static final String VIBRATOR_SERVICE = "vibrator";
    public Object getSystemService(String name) { throw new UnsupportedOperationException(); }
    public File getFilesDir() { throw new UnsupportedOperationException(); }
    public File getCacheDir() { throw new UnsupportedOperationException(); }
    public String getPackageName() { throw new UnsupportedOperationException(); }
    public ContentResolver getContentResolver() { throw new UnsupportedOperationException(); }
    public void startActivity(Intent intent) { throw new UnsupportedOperationException(); }
    public int checkSelfPermission(String permission) { throw new UnsupportedOperationException(); }
    public final String getString(int resId) { throw new UnsupportedOperationException(); }
}
