//! Issued again on every save, by the program itself: the file follows, and a faulty save leaves it as it was.

use super::{folder, job, latewood, names, written};
use latewood::pdf::{Standing, attachments, standing};
use std::io::{BufRead, BufReader};
use std::path::Path;
use std::process::{Child, ChildStdout, Command, Stdio};
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

/// How long a line may be in coming: far longer than it takes.
const PATIENCE: Duration = Duration::from_secs(60);

/// The program while it watches; it is ended with the test.
struct Watching {
    child: Child,
    lines: Receiver<String>,
}

impl Watching {
    fn start(arguments: &[&str]) -> Self {
        let mut child = latewood(arguments).stderr(Stdio::null()).spawn().expect("the program runs");
        let out: ChildStdout = child.stdout.take().expect("piped");
        let (sender, lines) = channel();
        std::thread::spawn(move || BufReader::new(out).lines().map_while(Result::ok).try_for_each(|line| sender.send(line)));
        Self { child, lines }
    }

    fn line(&self) -> String {
        self.lines.recv_timeout(PATIENCE).expect("a line for each save")
    }
}

impl Drop for Watching {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

/// The job file that a package carries; a package that is not whole fails the test.
fn carried(package: &Path) -> String {
    let bytes = std::fs::read(package).expect("the package");
    assert_eq!(standing(&bytes), Standing::Whole);
    let files = attachments(&bytes).expect("readable");
    let job = files.into_iter().find(|(name, _)| name == "job.yaml").expect("attached").1;
    String::from_utf8(job).expect("text")
}

#[test]
fn the_package_follows_its_job_file() {
    let folder = folder("watch");
    let first = job("A", "2026-01-05");
    let (file, package) = (written(&folder, "job.yaml", first.as_bytes()), folder.join("a.pdf"));
    let watching = Watching::start(&["issue", &file, "--watch", "--output", &package.to_string_lossy()]);
    let line = watching.line();
    assert!(line.contains("a.pdf in ") && line.contains("1 of 3 FAIL: H1 ") && !line.contains("changed"), "{line}");
    assert_eq!(carried(&package), first);

    // Written over, as some editors do.
    let second = first.replace("live: 40 psf", "live: 30 psf");
    std::fs::write(&file, &second).expect("saved");
    let line = watching.line();
    assert!(line.contains("changed: J1 ") && line.contains(" → "), "{line}");
    assert_eq!(carried(&package), second);

    // Mistakes: the package stays, byte for byte.
    let before = std::fs::read(&package).expect("the package");
    std::fs::write(&file, second.replace("spans: [12 ft]", "spans: [12]")).expect("saved");
    let line = watching.line();
    assert!(line.starts_with("1 mistake in ") && line.contains("stays as it was"), "{line}");
    assert!(std::fs::read(&package).expect("the package") == before);

    // Another file put in its place, as other editors do; the package is that of the new text, as a single run would have issued it.
    let third = second.replace("live: 30 psf", "live: 35 psf");
    std::fs::rename(written(&folder, "job.yaml.new", third.as_bytes()), &file).expect("renamed");
    assert!(watching.line().contains("changed: J1 "));
    assert_eq!(carried(&package), third);
    let alone = folder.join("alone.pdf");
    let run = latewood(&["issue", &file, "--output", &alone.to_string_lossy()]).output().expect("the program runs");
    assert_eq!(run.status.code(), Some(1));
    assert!(std::fs::read(alone).expect("written") == std::fs::read(&package).expect("the package"), "a warm press changes bytes");
    assert_eq!(names(&folder), ["a.pdf", "alone.pdf", "job.yaml"]);
}

#[test]
fn templates_are_watched_and_their_faults_leave_the_package() {
    let folder = folder("watch-templates");
    let office = folder.join("office");
    std::fs::create_dir(&office).expect("a folder");
    let (file, package) = (written(&folder, "job.yaml", job("A", "2026-01-05").as_bytes()), folder.join("a.pdf"));
    let ours = std::fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("templates/references.typ")).expect("our template");
    let watching =
        Watching::start(&["issue", &file, "--watch", "--templates", &office.to_string_lossy(), "--output", &package.to_string_lossy()]);
    watching.line();
    let before = std::fs::read(&package).expect("the package");
    written(&office, "references.typ", b"{{ nothing_so_named }}\n");
    assert!(watching.line().starts_with("not issued"));
    assert!(std::fs::read(&package).expect("the package") == before);
    written(&office, "references.typ", format!("{ours}\nA line of the office.\n").as_bytes());
    assert!(watching.line().contains("a.pdf in "));
    assert!(crate::pages::text_of(&std::fs::read(&package).expect("the package")).contains("A line of the office."));
}

#[test]
fn it_ends_when_it_is_told_to() {
    let folder = folder("watch-end");
    let file = written(&folder, "job.yaml", job("A", "2026-01-05").as_bytes());
    let mut watching = Watching::start(&["issue", &file, "--watch", "--output", &folder.join("a.pdf").to_string_lossy()]);
    watching.line();
    // What Ctrl-C sends.
    let sent = Command::new("bash").args(["-c", &format!("kill -INT {}", watching.child.id())]).status().expect("bash is there");
    assert!(sent.success());
    assert!(!watching.child.wait().expect("ended").success());
    assert_eq!(names(&folder), ["a.pdf", "job.yaml"]);
    // Nothing that could be saved is watched for.
    assert_eq!(super::run(&["issue", "-", "--watch"]).0, Some(2));
    assert_eq!(super::run(&["issue", "no-such.yaml", "--watch"]).0, Some(2));
}
