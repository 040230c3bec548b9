package android.print;

public abstract class PrintDocumentAdapter {
}
