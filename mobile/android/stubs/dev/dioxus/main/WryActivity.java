package dev.dioxus.main;

import android.app.Activity;
import android.webkit.WebView;

/** What wry's own activity gives to ours. */
public abstract class WryActivity extends Activity {
    public void onWebViewCreate(WebView webView) { throw new UnsupportedOperationException(); }
}
