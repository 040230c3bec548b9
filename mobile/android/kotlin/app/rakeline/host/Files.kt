package app.rakeline.host

import android.Manifest
import android.app.Activity
import android.content.ActivityNotFoundException
import android.content.Intent
import android.net.Uri
import android.provider.MediaStore
import android.provider.OpenableColumns
import androidx.core.content.FileProvider
import app.rakeline.R
import app.rakeline.phone.PictureOutcome
import app.rakeline.phone.ShareOutcome
import app.rakeline.phone.SharedFile
import app.rakeline.phone.TextOutcome
import app.rakeline.phone.fileHandedOver
import app.rakeline.phone.pictureCame
import app.rakeline.phone.shareDone
import app.rakeline.phone.textCame
import java.io.ByteArrayOutputStream
import java.io.File
import java.io.IOException
import java.io.InputStream
import kotlin.concurrent.thread

/** Pictures and files from and to other apps. */
class Files(private val activity: Activity, private val permissions: Permissions) {
    private val waiting = HashMap<Int, (Int, Intent?) -> Unit>()
    private var next = FIRST

    /** The system's camera app writes into a file of ours: full size, no other app sees it. */
    fun takePicture(wish: ULong) {
        permissions.with(Manifest.permission.CAMERA, R.string.reason_camera) { granted ->
            if (!granted) return@with pictureCame(wish, PictureOutcome.Refused)
            val file = File(folder("photo"), "taken.jpg")
            file.delete()
            val intent = Intent(MediaStore.ACTION_IMAGE_CAPTURE)
                .putExtra(MediaStore.EXTRA_OUTPUT, addressOf(file))
                .addFlags(Intent.FLAG_GRANT_WRITE_URI_PERMISSION)
            val opened = open(intent) { result, _ ->
                thread { pictureCame(wish, taken(result, file)) }
            }
            if (!opened) pictureCame(wish, PictureOutcome.NoCamera)
        }
    }

    /** Some camera apps say 'done' and write nothing. */
    private fun taken(result: Int, file: File): PictureOutcome = try {
        when {
            result != Activity.RESULT_OK || file.length() == 0L -> PictureOutcome.Nothing
            else -> PictureOutcome.Taken(file.readBytes())
        }
    } catch (fault: IOException) {
        PictureOutcome.Failed(fault.message ?: "IOException")
    } finally {
        file.delete()
    }

    fun choosePicture(wish: ULong) {
        val intent = Intent(Intent.ACTION_GET_CONTENT).setType("image/*")
            .addCategory(Intent.CATEGORY_OPENABLE)
        val opened = open(intent) { result, data ->
            val address = data?.data
            if (result != Activity.RESULT_OK || address == null) {
                pictureCame(wish, PictureOutcome.Nothing)
            } else {
                thread { pictureCame(wish, chosen(address)) }
            }
        }
        if (!opened) pictureCame(wish, PictureOutcome.Failed("ACTION_GET_CONTENT"))
    }

    private fun chosen(address: Uri): PictureOutcome = when (val read = read(address, MOST_PICTURE)) {
        is TextOutcome.Read -> PictureOutcome.Taken(read.bytes)
        is TextOutcome.Failed -> PictureOutcome.Failed(read.why)
        is TextOutcome.TooLarge -> PictureOutcome.Failed("${read.bytes} bytes")
        is TextOutcome.Nothing -> PictureOutcome.Nothing
    }

    fun openText(wish: ULong, most: ULong) {
        val intent = Intent(Intent.ACTION_OPEN_DOCUMENT).setType("*/*")
            .addCategory(Intent.CATEGORY_OPENABLE)
        val opened = open(intent) { result, data ->
            val address = data?.data
            if (result != Activity.RESULT_OK || address == null) {
                textCame(wish, TextOutcome.Nothing)
            } else {
                thread { textCame(wish, read(address, most.toLong())) }
            }
        }
        if (!opened) textCame(wish, TextOutcome.Failed("ACTION_OPEN_DOCUMENT"))
    }

    /** Another app handed a file over; once only, also when the activity comes again. */
    fun handedOver(intent: Intent?) {
        if (intent?.action != Intent.ACTION_VIEW) return
        val address = intent.data ?: return
        intent.setAction(Intent.ACTION_MAIN)
        thread { fileHandedOver(read(address, MOST_TEXT)) }
    }

    private fun read(address: Uri, most: Long): TextOutcome = try {
        activity.contentResolver.openInputStream(address).use { stream ->
            val bytes = stream?.let { atMost(it, most + 1) }
            when {
                bytes == null -> TextOutcome.Failed("no stream")
                bytes.size > most -> TextOutcome.TooLarge(bytes.size.toULong())
                else -> TextOutcome.Read(nameOf(address), bytes)
            }
        }
    } catch (fault: IOException) {
        TextOutcome.Failed(fault.message ?: "IOException")
    } catch (fault: SecurityException) {
        TextOutcome.Failed(fault.message ?: "SecurityException")
    }

    /** `readNBytes` is of a later system. */
    private fun atMost(stream: InputStream, most: Long): ByteArray {
        val out = ByteArrayOutputStream()
        val part = ByteArray(64 * 1024)
        while (out.size() < most) {
            val wanted = minOf(part.size.toLong(), most - out.size()).toInt()
            val got = stream.read(part, 0, wanted)
            if (got < 0) break
            out.write(part, 0, got)
        }
        return out.toByteArray()
    }

    private fun nameOf(address: Uri): String {
        val columns = arrayOf(OpenableColumns.DISPLAY_NAME)
        val found = activity.contentResolver.query(address, columns, null, null, null)
        found?.use { rows -> if (rows.moveToFirst()) return rows.getString(0) ?: "" }
        return address.lastPathSegment ?: ""
    }

    /** The file is written where only the app that takes it may read it. */
    fun share(wish: ULong, file: SharedFile) {
        thread {
            val outcome = try {
                // A name is a name, never a path.
                val name = file.name.replace(Regex("[^\\p{L}\\p{N} ._-]"), "_").trimStart('.')
                val out = File(folder("share"), name.ifEmpty { "file" })
                out.writeBytes(file.bytes)
                val send = Intent(Intent.ACTION_SEND).setType(file.mime)
                    .putExtra(Intent.EXTRA_STREAM, addressOf(out))
                    .addFlags(Intent.FLAG_GRANT_READ_URI_PERMISSION)
                activity.startActivity(Intent.createChooser(send, out.name))
                ShareOutcome.HandedOver
            } catch (_: ActivityNotFoundException) {
                ShareOutcome.NoTaker
            } catch (fault: IOException) {
                ShareOutcome.Failed(fault.message ?: "IOException")
            }
            shareDone(wish, outcome)
        }
    }

    private fun folder(name: String) = File(activity.cacheDir, name).apply { mkdirs() }

    private fun addressOf(file: File): Uri =
        FileProvider.getUriForFile(activity, "${activity.packageName}.files", file)

    @Suppress("DEPRECATION")
    private fun open(intent: Intent, then: (Int, Intent?) -> Unit): Boolean {
        val request = next++
        waiting[request] = then
        return try {
            activity.startActivityForResult(intent, request)
            true
        } catch (_: ActivityNotFoundException) {
            waiting.remove(request)
            false
        }
    }

    fun answered(request: Int, result: Int, data: Intent?) {
        waiting.remove(request)?.invoke(result, data)
    }

    private companion object {
        const val FIRST = 5_000
        const val MOST_PICTURE = 40_000_000L
        const val MOST_TEXT = 1_000_000L
    }
}
