package app.rakeline.test

import app.rakeline.phone.TiltReading
import app.rakeline.phone.TiltSource
import app.rakeline.phone.tiltCame
import java.io.File
import kotlin.system.exitProcess

/** Arguments: `test` or `bench`, the workspace's folder, a scratch folder. */
fun main(args: Array<String>) {
    val (what, root, scratch) = args
    if (what == "bench") return bench()
    var failed = 0
    val tests = PhoneTests(File(scratch)).all() + ("kotlinComputesWhatRustComputes" to {
        val expected = File(root, "tests/fixtures/ffi/expected.txt").readLines()
        val computed = Vectors(File(root)).computed()
        for ((ours, rust) in computed.zip(expected)) {
            if (ours != rust) throw AssertionError("$ours\n  and not $rust")
        }
        if (computed.size != expected.size) throw AssertionError("${computed.size} lines")
    })
    for ((name, test) in tests) {
        try {
            test()
            println("test $name ... ok")
        } catch (fault: Throwable) {
            failed++
            println("test $name ... FAILED")
            println("  $fault")
        }
    }
    println("test result: ${tests.size - failed} passed; $failed failed")
    // Threads of the app go with the process.
    exitProcess(if (failed == 0) 0 else 1)
}

/** Milliseconds for a batch of 1,000 readings across the boundary: the median. */
fun bench() {
    val batch = List(1_000) { TiltReading(it.toDouble(), 0.1, 9.7, -1.2, 0.0) }
    val took = List(600) {
        val start = System.nanoTime()
        tiltCame(9_999_999u, TiltSource.ACCELERATION, 0.0, batch)
        (System.nanoTime() - start) / 1e6
    }
    println("batch_of_1000_ms ${took.drop(300).sorted()[150]}")
    exitProcess(0)
}
