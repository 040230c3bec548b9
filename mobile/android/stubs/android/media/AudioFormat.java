package android.media;

public final class AudioFormat {
    public static final int CHANNEL_IN_MONO = 16;
    public static final int CHANNEL_OUT_MONO = 4;
    public static final int ENCODING_PCM_16BIT = 2;

    public static class Builder {
        public Builder() { throw new UnsupportedOperationException(); }
        public Builder setEncoding(int encoding) { throw new UnsupportedOperationException(); }
        public Builder setSampleRate(int sampleRate) { throw new UnsupportedOperationException(); }
        public Builder setChannelMask(int channelMask) { throw new UnsupportedOperationException(); }
        public AudioFormat build() { throw new UnsupportedOperationException(); }
    }
}
