package android.print;

public final class PrintJob {
}
