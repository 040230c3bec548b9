use std::time::Duration;
use rakeline_tests::browser::*;
fn server() -> Server {
    Server::of_files(&[("/", include_str!("../fixtures/harness/index.html")), ("/worker.js", include_str!("../fixtures/harness/worker.js"))])
}
#[test]
fn explore() {
    let mut server = server();
    let phone = Phone::open(&server, PhoneSetup::default());
    let show = |what: &str| { phone.rest(Duration::from_millis(400)); println!("--- {what}\n{}\n{}", phone.text().lines().take(12).filter(|l| !l.is_empty()).collect::<Vec<_>>().join("\n"), phone.eval("JSON.stringify(window.seen)")); };
    phone.goto("/");
    show("start");
    for (r, al) in [(-4.2,0.0),(4.2,0.0),(0.0,0.0),(0.03,0.0),(-4.2,130.0),(0.0,130.0), (12.34, 0.0)] {
        phone.hold(Attitude::back_on_face(r).turned(al));
        show(&format!("rake {r} alpha {al}"));
    }
    phone.eval("window.seen = {orientation:0,motion:0,quaternion:0}");
    phone.carry_between_marks();
    show("carried");
    phone.eval("window.seen = {orientation:0,motion:0,quaternion:0}");
    phone.hold_trembling(-4.2, 1.0);
    show("trembled");
    phone.reload(); show("reloaded");
    phone.sensor_missing(); phone.goto("/"); show("missing");
    phone.sensor_refused(); phone.goto("/"); show("refused");
    println!("{}", phone.eval("Promise.all(['accelerometer','gyroscope','magnetometer'].map(n => navigator.permissions.query({name:n}).then(p => n + p.state))).then(String)"));
    println!("{}", phone.eval("String(typeof DeviceOrientationEvent.requestPermission)"));
    phone.set_sensors(SensorState::Held(Attitude::back_on_face(3.0)));
    phone.goto("/"); show("back");
    println!("override cmd {:?}", phone.try_eval("1"));
    phone.cdp("DeviceOrientation.setDeviceOrientationOverride", serde_json::json!({"alpha": 1.0, "beta": 80.0, "gamma": 2.0}));
    show("DeviceOrientation override");
    phone.cdp("DeviceOrientation.clearDeviceOrientationOverride", serde_json::json!({}));
    show("cleared");
    phone.tap_named("Count"); phone.tap_named("Far"); phone.type_into("Half width", "880"); phone.press("Enter");
    show("tapped");
    phone.shot("harness", Shot::WholePage);
    server.stop();
    phone.reload(); show("offline");
    phone.kill(); phone.goto("/"); show("killed");
    phone.relaunch(); phone.goto("/"); show("relaunched");
    println!("{:?}", phone.errors());
}
