package app.rakeline.host

import android.webkit.WebView

/** What the host needs of its activity beside what every activity has. */
interface HostActivity {
    /** The page, once it is there. */
    val page: WebView?
}
