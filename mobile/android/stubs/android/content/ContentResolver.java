package android.content;

import android.database.Cursor;
import android.net.Uri;
import java.io.FileNotFoundException;
import java.io.InputStream;

public abstract class ContentResolver {
    public final InputStream openInputStream(Uri uri) throws FileNotFoundException { throw new UnsupportedOperationException(); }
    public final Cursor query(Uri uri, String[] projection, String selection, String[] selectionArgs, String sortOrder) { throw new UnsupportedOperationException(); }
}
