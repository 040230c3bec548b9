package android.media;

import java.nio.ByteBuffer;

public class AudioRecord {
    public static final int STATE_INITIALIZED = 1;
    public static final int RECORDSTATE_RECORDING = 3;
    public AudioRecord(int audioSource, int sampleRateInHz, int channelConfig, int audioFormat, int bufferSizeInBytes) { throw new UnsupportedOperationException(); }
    public static int getMinBufferSize(int sampleRateInHz, int channelConfig, int audioFormat) { throw new UnsupportedOperationException(); }
    public int getState() { throw new UnsupportedOperationException(); }
    public int getRecordingState() { throw new UnsupportedOperationException(); }
    public int getSampleRate() { throw new UnsupportedOperationException(); }
    public void startRecording() { throw new UnsupportedOperationException(); }
    public int read(ByteBuffer audioBuffer, int sizeInBytes) { throw new UnsupportedOperationException(); }
    public void release() { throw new UnsupportedOperationException(); }
}
