package app.rakeline.host

import android.app.Activity
import android.app.AlertDialog
import android.content.pm.PackageManager
import app.rakeline.R

/** Asks for a permission at its first use, with the reason when it was refused before. */
class Permissions(private val activity: Activity) {
    private val waiting = HashMap<Int, (Boolean) -> Unit>()
    private var next = FIRST

    fun with(permission: String, reason: Int, then: (Boolean) -> Unit) {
        activity.runOnUiThread {
            if (activity.checkSelfPermission(permission) == PackageManager.PERMISSION_GRANTED) {
                then(true)
            } else if (activity.shouldShowRequestPermissionRationale(permission)) {
                AlertDialog.Builder(activity)
                    .setMessage(reason)
                    .setPositiveButton(R.string.permission_ask) { _, _ -> ask(permission, then) }
                    .setNegativeButton(R.string.permission_not_now) { _, _ -> then(false) }
                    .setOnCancelListener { then(false) }
                    .show()
            } else {
                ask(permission, then)
            }
        }
    }

    private fun ask(permission: String, then: (Boolean) -> Unit) {
        val request = next++
        waiting[request] = then
        activity.requestPermissions(arrayOf(permission), request)
    }

    /** An empty answer is a question that was broken off. */
    fun answered(request: Int, results: IntArray) {
        val granted = results.isNotEmpty() && results.all { it == PackageManager.PERMISSION_GRANTED }
        waiting.remove(request)?.invoke(granted)
    }

    private companion object {
        const val FIRST = 4_000
    }
}
