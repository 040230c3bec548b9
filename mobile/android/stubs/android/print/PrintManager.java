package android.print;

public final class PrintManager {
    public PrintJob print(String printJobName, PrintDocumentAdapter documentAdapter, PrintAttributes attributes) { throw new UnsupportedOperationException(); }
}
