package dev.dioxus.main

import android.content.Intent
import android.os.Bundle
import android.view.KeyEvent
import android.webkit.WebView
import app.rakeline.host.Host
import app.rakeline.host.HostActivity
import app.rakeline.phone.backPressed
import app.rakeline.phone.hidden
import app.rakeline.phone.install
import app.rakeline.phone.path
import app.rakeline.phone.shown
import app.rakeline.phone.volumeKeysCount

/** The one activity: gives the phone to the app, then hands on what the system says. */
class MainActivity : WryActivity(), HostActivity {
    private lateinit var host: Host
    override var page: WebView? = null

    override fun onCreate(savedInstanceState: Bundle?) {
        val before = savedInstanceState?.getString(Host.PATH) ?: intent.getStringExtra(Host.PATH)
        host = Host(this, this, before ?: "")
        if (ran) {
            // The app's own thread cannot start twice in a process. All is
            // stored: a fresh process opens where this one was.
            host.startAfresh(path())
        }
        ran = true
        // Before the app starts: it asks for the phone at once.
        install(host)
        super.onCreate(savedInstanceState)
        host.takeFile(intent)
    }

    override fun onWebViewCreate(webView: WebView) {
        page = webView
    }

    override fun onNewIntent(intent: Intent) {
        super.onNewIntent(intent)
        host.takeFile(intent)
    }

    override fun onResume() {
        super.onResume()
        shown()
    }

    override fun onPause() {
        hidden()
        super.onPause()
    }

    override fun onSaveInstanceState(outState: Bundle) {
        outState.putString(Host.PATH, path())
        super.onSaveInstanceState(outState)
    }

    override fun onDestroy() {
        host.close()
        super.onDestroy()
    }

    @Deprecated("The way without a library")
    override fun onActivityResult(requestCode: Int, resultCode: Int, data: Intent?) {
        super.onActivityResult(requestCode, resultCode, data)
        host.answered(requestCode, resultCode, data)
    }

    override fun onRequestPermissionsResult(
        requestCode: Int,
        permissions: Array<String>,
        grantResults: IntArray,
    ) {
        super.onRequestPermissionsResult(requestCode, permissions, grantResults)
        host.permitted(requestCode, grantResults)
    }

    override fun onKeyDown(keyCode: Int, event: KeyEvent?): Boolean {
        if (keyCode == KeyEvent.KEYCODE_BACK) {
            backPressed()
            return true
        }
        return super.onKeyDown(keyCode, event)
    }

    /** In the obstacle learn volume down is 'in' and volume up 'out', as the arrows are. */
    override fun dispatchKeyEvent(event: KeyEvent): Boolean {
        val arrow = when (event.keyCode) {
            KeyEvent.KEYCODE_VOLUME_DOWN -> KeyEvent.KEYCODE_DPAD_DOWN
            KeyEvent.KEYCODE_VOLUME_UP -> KeyEvent.KEYCODE_DPAD_UP
            else -> return super.dispatchKeyEvent(event)
        }
        val shown = page
        if (shown == null || !volumeKeysCount()) return super.dispatchKeyEvent(event)
        if (event.repeatCount == 0) shown.dispatchKeyEvent(KeyEvent(event.action, arrow))
        return true
    }

    private companion object {
        var ran = false
    }
}
