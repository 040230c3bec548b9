package android.app;

import android.content.Context;
import android.content.DialogInterface;

public class AlertDialog {
    public static class Builder {
        public Builder(Context context) { throw new UnsupportedOperationException(); }
        public Builder setMessage(int messageId) { throw new UnsupportedOperationException(); }
        public Builder setPositiveButton(int textId, DialogInterface.OnClickListener listener) { throw new UnsupportedOperationException(); }
        public Builder setNegativeButton(int textId, DialogInterface.OnClickListener listener) { throw new UnsupportedOperationException(); }
        public Builder setOnCancelListener(DialogInterface.OnCancelListener listener) { throw new UnsupportedOperationException(); }
        public AlertDialog show() { throw new UnsupportedOperationException(); }
    }
}
