package android.media;

public final class AudioAttributes {
    public static final int USAGE_ASSISTANCE_SONIFICATION = 13;

    public static class Builder {
        public Builder() { throw new UnsupportedOperationException(); }
        public Builder setUsage(int usage) { throw new UnsupportedOperationException(); }
        public AudioAttributes build() { throw new UnsupportedOperationException(); }
    }
}
