package android.speech.tts;

import android.content.Context;
import android.os.Bundle;
import java.util.Locale;

public class TextToSpeech {
    public static final int SUCCESS = 0;
    public static final int LANG_AVAILABLE = 0;
    public static final int QUEUE_FLUSH = 0;
    public TextToSpeech(Context context, OnInitListener listener) { throw new UnsupportedOperationException(); }
    public int setLanguage(Locale loc) { throw new UnsupportedOperationException(); }
    public int speak(CharSequence text, int queueMode, Bundle params, String utteranceId) { throw new UnsupportedOperationException(); }
    public int stop() { throw new UnsupportedOperationException(); }
    public void shutdown() { throw new UnsupportedOperationException(); }

    public interface OnInitListener {
        void onInit(int status);
    }
}
