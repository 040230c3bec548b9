package android.net;

import android.os.Parcelable;

public abstract class Uri implements Parcelable {
    public abstract String getLastPathSegment();
}
