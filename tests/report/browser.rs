//! A real browser without a screen, spoken to through two pipes (the DevTools protocol of Chromium).

use std::fs::File;
use std::io::{BufRead as _, BufReader, Write as _};
use std::path::Path;
use std::process::{Child, Command, Stdio};

use serde_json::{Value, json};
use tempfile::TempDir;

/// A browser with one page.
pub struct Browser {
    child: Child,
    to: File,
    from: BufReader<File>,
    session: Option<String>,
    next: u64,
    events: Vec<Value>,
    _folder: TempDir,
}

impl Browser {
    /// Starts it.
    #[track_caller]
    pub fn start() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let place = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
        let (to, from, profile) = (place("to"), place("from"), place("profile"));
        super::desk::tool("mkfifo", &[&to, &from]);
        // The browser wants its pipes as descriptors 3 and 4; as root it wants no sandbox.
        let script = r#"exec chromium --headless=new --no-sandbox --disable-gpu --disable-dev-shm-usage \
            --no-first-run --disable-background-networking --disable-extensions --disable-sync \
            --user-data-dir="$3" --remote-debugging-pipe about:blank 3<"$1" 4>"$2""#;
        let child = Command::new("sh")
            .args(["-c", script, "sh", &to, &from, &profile])
            .stdin(Stdio::null())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        // Opened for both ways, so that a browser that does not start blocks nobody here.
        let open = |path: &str| File::options().read(true).write(true).open(path).unwrap();
        let mut browser = Self {
            child,
            to: open(&to),
            from: BufReader::new(open(&from)),
            session: None,
            next: 0,
            events: Vec::new(),
            _folder: folder,
        };
        std::thread::sleep(std::time::Duration::from_millis(300));
        assert!(
            browser.child.try_wait().unwrap().is_none(),
            "chromium does not start: run .ci/setup"
        );
        let target = browser.call("Target.createTarget", json!({"url": "about:blank"}));
        let target = target["targetId"].as_str().unwrap().to_owned();
        let attached =
            browser.call("Target.attachToTarget", json!({"targetId": target, "flatten": true}));
        browser.session = Some(attached["sessionId"].as_str().unwrap().to_owned());
        for domain in ["Page", "Runtime", "Log", "Network"] {
            browser.call(&format!("{domain}.enable"), json!({}));
        }
        browser
    }

    /// Asks for something and waits for the answer; what happens meanwhile is kept.
    #[track_caller]
    pub fn call(&mut self, method: &str, parameters: Value) -> Value {
        self.next += 1;
        let mut asked = json!({"id": self.next, "method": method, "params": parameters});
        if let Some(session) = &self.session {
            asked["sessionId"] = json!(session);
        }
        self.to.write_all(format!("{asked}\0").as_bytes()).unwrap();
        loop {
            let said = self.hear();
            if said["id"] == json!(self.next) {
                assert!(said["error"].is_null(), "{method}: {said}");
                return said["result"].clone();
            }
            self.events.push(said);
        }
    }

    fn hear(&mut self) -> Value {
        let mut bytes = Vec::new();
        self.from.read_until(0, &mut bytes).unwrap();
        bytes.pop();
        serde_json::from_slice(&bytes).unwrap()
    }

    /// Opens a file at a width, and waits until it is loaded.
    #[track_caller]
    pub fn open(&mut self, path: &Path, width: u32) {
        let screen =
            json!({"width": width, "height": 800, "deviceScaleFactor": 1, "mobile": false});
        self.call("Emulation.setDeviceMetricsOverride", screen);
        self.events.clear();
        self.call("Page.navigate", json!({"url": format!("file://{}", path.display())}));
        while !self.events.iter().any(|event| event["method"] == "Page.loadEventFired") {
            let said = self.hear();
            self.events.push(said);
        }
        // Type is fetched when it is first wanted.
        self.ask("document.fonts.ready.then(() => document.fonts.size)");
    }

    /// The value of an expression on the page.
    #[track_caller]
    pub fn ask(&mut self, expression: &str) -> Value {
        let asked = json!({"expression": expression, "returnByValue": true, "awaitPromise": true});
        let said = self.call("Runtime.evaluate", asked);
        assert!(said["exceptionDetails"].is_null(), "{expression}: {said}");
        said["result"]["value"].clone()
    }

    /// What was asked of the net and the disk since the page was opened.
    pub fn requests(&self) -> Vec<String> {
        let sent =
            self.events.iter().filter(|event| event["method"] == "Network.requestWillBeSent");
        sent.map(|event| event["params"]["request"]["url"].as_str().unwrap().to_owned()).collect()
    }

    /// What stands on the console: errors, warnings, whatever the page or the browser said.
    pub fn console(&self) -> Vec<String> {
        let told = ["Runtime.consoleAPICalled", "Runtime.exceptionThrown", "Log.entryAdded"];
        let told =
            self.events.iter().filter(|event| told.iter().any(|name| event["method"] == *name));
        told.map(Value::to_string).collect()
    }

    /// The page printed on paper of a size, inches, unless its style asks for another, as a PDF.
    #[track_caller]
    pub fn print(&mut self, path: &Path, (width, height): (f64, f64)) {
        let asked = json!({
            "preferCSSPageSize": true, "printBackground": false,
            "paperWidth": width, "paperHeight": height,
        });
        let said = self.call("Page.printToPDF", asked);
        std::fs::write(path, from_base64(said["data"].as_str().unwrap())).unwrap();
    }
}

impl Drop for Browser {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// Bytes from the letters of base 64.
fn from_base64(text: &str) -> Vec<u8> {
    let (mut bytes, mut bits, mut held) = (Vec::new(), 0_u32, 0);
    for letter in text.bytes() {
        let value = match letter {
            b'A'..=b'Z' => letter - b'A',
            b'a'..=b'z' => letter - b'a' + 26,
            b'0'..=b'9' => letter - b'0' + 52,
            b'+' => 62,
            b'/' => 63,
            _ => break,
        };
        bits = bits << 6 | u32::from(value);
        held += 6;
        if held >= 8 {
            held -= 8;
            bytes.push((bits >> held & 0xff) as u8);
        }
    }
    bytes
}
