package android.webkit;

import android.print.PrintDocumentAdapter;
import android.view.KeyEvent;

public class WebView {
    public PrintDocumentAdapter createPrintDocumentAdapter(String documentName) { throw new UnsupportedOperationException(); }
    public boolean dispatchKeyEvent(KeyEvent event) { throw new UnsupportedOperationException(); }
}
