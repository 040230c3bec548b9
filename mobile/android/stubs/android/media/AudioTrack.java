package android.media;

public class AudioTrack {
    public static final int MODE_STATIC = 0;
    public int write(short[] audioData, int offsetInShorts, int sizeInShorts) { throw new UnsupportedOperationException(); }
    public void play() { throw new UnsupportedOperationException(); }
    public void release() { throw new UnsupportedOperationException(); }

    public static class Builder {
        public Builder() { throw new UnsupportedOperationException(); }
        public Builder setAudioAttributes(AudioAttributes attributes) { throw new UnsupportedOperationException(); }
        public Builder setAudioFormat(AudioFormat format) { throw new UnsupportedOperationException(); }
        public Builder setTransferMode(int mode) { throw new UnsupportedOperationException(); }
        public Builder setBufferSizeInBytes(int bufferSizeInBytes) { throw new UnsupportedOperationException(); }
        public AudioTrack build() { throw new UnsupportedOperationException(); }
    }
}
