package android.app;

import android.content.Context;
import android.content.Intent;
import android.os.Bundle;
import android.view.KeyEvent;
import android.view.Window;
import android.view.WindowManager;

public class Activity extends Context {
    public static final int RESULT_OK = -1;
    public final void runOnUiThread(Runnable action) { throw new UnsupportedOperationException(); }
    public Window getWindow() { throw new UnsupportedOperationException(); }
    public WindowManager getWindowManager() { throw new UnsupportedOperationException(); }
    public Intent getIntent() { throw new UnsupportedOperationException(); }
    public void startActivityForResult(Intent intent, int requestCode) { throw new UnsupportedOperationException(); }
    public boolean moveTaskToBack(boolean nonRoot) { throw new UnsupportedOperationException(); }
    public boolean shouldShowRequestPermissionRationale(String permission) { throw new UnsupportedOperationException(); }
    public final void requestPermissions(String[] permissions, int requestCode) { throw new UnsupportedOperationException(); }
    protected void onCreate(Bundle savedInstanceState) { throw new UnsupportedOperationException(); }
    protected void onNewIntent(Intent intent) { throw new UnsupportedOperationException(); }
    protected void onResume() { throw new UnsupportedOperationException(); }
    protected void onPause() { throw new UnsupportedOperationException(); }
    protected void onSaveInstanceState(Bundle outState) { throw new UnsupportedOperationException(); }
    protected void onDestroy() { throw new UnsupportedOperationException(); }
    protected void onActivityResult(int requestCode, int resultCode, Intent data) { throw new UnsupportedOperationException(); }
    public void onRequestPermissionsResult(int requestCode, String[] permissions, int[] grantResults) { throw new UnsupportedOperationException(); }
    public boolean onKeyDown(int keyCode, KeyEvent event) { throw new UnsupportedOperationException(); }
    public boolean dispatchKeyEvent(KeyEvent event) { throw new UnsupportedOperationException(); }
}
