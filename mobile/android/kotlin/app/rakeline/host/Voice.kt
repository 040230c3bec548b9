package app.rakeline.host

import android.content.Context
import android.speech.tts.TextToSpeech
import java.util.Locale

/** The phone's voice: the page's web view may have none. Silent without one. */
class Voice(context: Context) : TextToSpeech.OnInitListener {
    @Volatile
    private var ready = false
    private val voice = TextToSpeech(context, this)

    override fun onInit(status: Int) {
        if (status == TextToSpeech.SUCCESS) {
            ready = voice.setLanguage(Locale.ENGLISH) >= TextToSpeech.LANG_AVAILABLE
        }
    }

    fun say(words: String) {
        if (ready) voice.speak(words, TextToSpeech.QUEUE_FLUSH, null, "rakeline")
    }

    fun hush() {
        if (ready) voice.stop()
    }

    fun close() {
        ready = false
        voice.shutdown()
    }
}
