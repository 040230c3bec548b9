package android.print;

public final class PrintAttributes {
    public static final class Builder {
        public Builder() { throw new UnsupportedOperationException(); }
        public PrintAttributes build() { throw new UnsupportedOperationException(); }
    }
}
