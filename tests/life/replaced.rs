//! What is written over what: nothing that somebody may have sent or signed, and nothing that is not ours, without `--replace`.

use super::{A, NAME, SUBMITTAL, folder, issued, job, names, run, written};
use latewood::package::Build;
use latewood::study::supersede;
use std::io::Read;
use std::path::Path;
use std::process::Stdio;

/// The job issued for something, with a live load.
fn purpose(purpose: &str, live: u32) -> String {
    let job = job("A", "2026-01-05").replace("live: 40 psf", &format!("live: {live} psf"));
    let job = job.replace("issued-for: permit", &format!("issued-for: {purpose}"));
    assert!(job.contains(&format!("live: {live} psf")) && job.contains(&format!("issued-for: {purpose}\n")), "{job}");
    job
}

/// Bytes of a signature, as far as a file that grew is one.
fn signed(package: &[u8]) -> Vec<u8> {
    [package, b"\n9999 0 obj\n<</Type /Sig>>\nendobj\nstartxref\n0\n%%EOF\n"].concat()
}

#[test]
fn what_may_have_been_sent_or_signed_is_not_written_over() {
    let folder = folder("replaced");
    let record = |job: &str| issued(job, Build::Record);
    let (permit, review) = (record(&purpose("permit", 40)), record(&purpose("review", 40)));
    let other_job = record(&purpose("review", 40).replace("number: \"#1\"", "number: \"#2\""));
    let other_revision = record(&purpose("review", 40).replace("revision: A", "revision: B").replace("mark: A", "mark: B"));
    let mut altered = review.clone();
    altered[review.len() / 2] ^= 1;
    let stamped = supersede(&A, &super::B).expect("stamped");
    // What is there; what the job is issued for now; whether it is written over without --replace; what is said.
    let cases: [(&str, &[u8], &str, bool, &str); 12] = [
        ("permit", &permit, "permit", false, "issued for permit and may have been sent; the job file differs, the results differ: J1 "),
        ("permit-now-review", &permit, "review", false, "a new revision (such as B), or write over it with --replace"),
        ("for-the-record", &record(&purpose("record", 40)), "record", false, "issued for record and may have been sent"),
        ("review", &review, "review", true, "the job file differs, the results differ: J1 "),
        ("review-now-permit", &review, "permit", true, "issued for review before"),
        ("other-job", &other_job, "review", false, "is the record of job #2 revision A, not of job #1 revision A: name another file"),
        ("other-revision", &other_revision, "review", false, "revision B, not of job #1 revision A"),
        (
            "other-copy",
            &issued(&purpose("review", 40), Build::Submittal),
            "review",
            false,
            "submittal of job #1 revision A, not its record",
        ),
        ("signed", &signed(&review), "review", false, "something was appended to it after it was issued"),
        ("altered", &altered, "review", false, "altered since it was issued"),
        ("stamped", &stamped, "review", false, "is a stamped copy"),
        ("not-ours", b"%PDF-1.7\nminutes of a meeting\n%%EOF", "review", false, "is no package of this program: name another file"),
    ];
    for (name, there, purpose_now, allowed, says) in cases {
        let file = written(&folder, &format!("{name}.yaml"), purpose(purpose_now, 45).as_bytes());
        let package = written(&folder, &format!("{name}.pdf"), there);
        let (status, out, err) = run(&["issue", &file, "--output", &package]);
        assert_eq!(status, Some(if allowed { 1 } else { 2 }), "{name}: {out}{err}");
        assert!(err.contains(says) && err.lines().count() == 1, "{name}: {err}");
        let now = std::fs::read(&package).expect("there");
        assert_eq!(now != there, allowed, "{name}");
        if !allowed {
            assert!(out.is_empty() && err.contains("--replace"), "{name}: {out}{err}");
            assert_eq!(run(&["issue", &file, "--output", &package, "--replace"]).0, Some(1), "{name}");
            assert!(std::fs::read(&package).expect("there") == record(&purpose(purpose_now, 45)), "{name}");
        }
    }
}

#[test]
fn an_identical_package_is_not_touched_and_that_is_said() {
    let folder = folder("unchanged");
    let file = written(&folder, "job.yaml", purpose("permit", 40).as_bytes());
    let package = folder.join(format!("{NAME}.pdf"));
    for said in ["", "unchanged, it held the same bytes"] {
        let (status, out, err) = run(&["issue", &file, "--authentication"]);
        assert_eq!((status, out.lines().count(), err.lines().count()), (Some(1), 2, if said.is_empty() { 0 } else { 2 }), "{err}");
        assert!(err.lines().all(|line| line.ends_with(said)), "{err}");
    }
    let time = |path: &Path| path.metadata().and_then(|about| about.modified()).expect("a time");
    let before = time(&package);
    assert_eq!(run(&["issue", &file]).0, Some(1));
    assert_eq!(time(&package), before);
    // Only the sheet beside it is in the way: neither is written.
    std::fs::remove_file(&package).expect("removed");
    let sheet = written(&folder, &format!("{NAME}-authentication.pdf"), b"a scan with a signature");
    let (status, _, err) = run(&["issue", &file, "--authentication"]);
    assert!(status == Some(2) && err.contains(&format!("{NAME}-authentication.pdf is there and is no package")), "{err}");
    assert!(!package.exists() && std::fs::read(sheet).expect("there") == b"a scan with a signature");
}

#[test]
fn other_files_are_written_over_only_where_that_is_asked_for() {
    let folder = folder("other-files");
    let at = |name: &str| folder.join(name).to_string_lossy().into_owned();
    let (a, b) = (written(&folder, "a.pdf", &A), written(&folder, "b.pdf", &super::B));
    let job = written(&folder, "job.yaml", job("A", "2026-01-05").as_bytes());
    let spans = ["spans", "--species", "Hem-Fir", "--grade", "No.2", "--section", "2x8", "--spacing", "16 in", "--load", "live=40 psf"];
    let there = at("there");
    for command in [&["size", &job][..], &["extract", &a], &["supersede", &a, "--by", &b], &spans, &["prove", "--format", "csv"]] {
        std::fs::write(&there, "somebody's notes").expect("written");
        let (status, out, err) = run(&[command, &["--output", &there]].concat());
        assert_eq!((status, out.as_str()), (Some(2), ""), "{command:?}: {err}");
        assert!(err.contains("is there and holds something else: name another file, or write over it with --replace"), "{err}");
        assert_eq!(std::fs::read(&there).expect("there"), b"somebody's notes", "{command:?}");
        let (status, _, err) = run(&[command, &["--output", &there, "--replace"]].concat());
        assert!(matches!(status, Some(0 | 1)), "{command:?}: {err}");
        assert_ne!(std::fs::read(&there).expect("there"), b"somebody's notes", "{command:?}");
        // The same once more is no question.
        let (status, _, _) = run(&[command, &["--output", &there]].concat());
        assert!(matches!(status, Some(0 | 1)), "{command:?}");
    }
    let (status, _, err) = run(&["init", &there]);
    assert!(status == Some(2) && err.contains("is there already") && !err.contains("--replace"), "{err}");
}

#[cfg(unix)]
mod places {
    use super::*;
    use crate::life::latewood;
    use std::os::unix::fs::{FileTypeExt, PermissionsExt, symlink};
    use std::process::Command;

    fn mode(path: &Path) -> u32 {
        path.metadata().expect("there").permissions().mode() & 0o777
    }

    fn set(path: &Path, mode: u32) {
        std::fs::set_permissions(path, std::fs::Permissions::from_mode(mode)).expect("set");
    }

    #[test]
    fn permissions_are_those_of_the_umask_or_of_what_was_there() {
        let folder = folder("umask");
        let file = written(&folder, "job.yaml", purpose("review", 40).as_bytes());
        let package = written(&folder, "a.pdf", &A);
        let under = |umask: &str, arguments: &[&str]| {
            let script = format!("umask {umask}; \"$0\" \"$@\"");
            let output = Command::new("bash").args(["-c", &script, env!("CARGO_BIN_EXE_latewood")]).args(arguments).output();
            assert!(matches!(output.expect("bash is there").status.code(), Some(0 | 1)), "{arguments:?}");
        };
        // 0666 without the bits of the mask.
        for (umask, expected) in [("022", 0o644), ("027", 0o640), ("077", 0o600), ("002", 0o664)] {
            let (new, carried) = (folder.join(format!("{umask}.pdf")), folder.join(format!("{umask}.yaml")));
            under(umask, &["issue", &file, "--output", &new.to_string_lossy()]);
            under(umask, &["extract", &package, "--output", &carried.to_string_lossy()]);
            let office = folder.join(format!("office-{umask}"));
            under(umask, &["archive", &office.to_string_lossy(), "file", &package]);
            for path in [new, carried, office.join("index.jsonl"), office.join("index.txt")] {
                assert_eq!(mode(&path), expected, "{umask} {}", path.display());
            }
        }
        let kept = folder.join("022.pdf");
        set(&kept, 0o606);
        let changed = written(&folder, "changed.yaml", purpose("review", 45).as_bytes());
        under("022", &["issue", &changed, "--output", &kept.to_string_lossy()]);
        assert_eq!(mode(&kept), 0o606);
    }

    #[test]
    fn a_read_only_file_is_not_replaced() {
        let folder = folder("read-only-file");
        let file = written(&folder, "job.yaml", purpose("review", 45).as_bytes());
        let package = folder.join("a.pdf");
        let before = issued(&purpose("review", 40), Build::Record);
        std::fs::write(&package, &before).expect("written");
        set(&package, 0o444);
        let path = package.to_string_lossy().into_owned();
        let (status, _, err) = run(&["issue", &file, "--output", &path]);
        assert!(status == Some(2) && err.contains("is read-only: name another file, or write over it with --replace"), "{err}");
        assert!(std::fs::read(&package).expect("there") == before);
        assert_eq!(run(&["issue", &file, "--output", &path, "--replace"]).0, Some(1));
        assert!(std::fs::read(&package).expect("there") != before && mode(&package) == 0o444);
    }

    #[test]
    fn a_link_is_followed_and_stays_one() {
        let folder = folder("links");
        let file = written(&folder, "job.yaml", purpose("review", 40).as_bytes());
        std::fs::create_dir(folder.join("store")).expect("a folder");
        // One that leads to a file, one to a name that is free, one to a link; relative ones.
        std::fs::write(folder.join("store/old.pdf"), issued(&purpose("review", 45), Build::Record)).expect("written");
        for (link, to, target) in [
            ("a.pdf", "store/old.pdf", "store/old.pdf"),
            ("b.pdf", "store/new.pdf", "store/new.pdf"),
            ("store/c.pdf", "../b2.pdf", "b2.pdf"),
            ("d.pdf", "store/c2.pdf", "store/deep.pdf"),
        ] {
            if link == "d.pdf" {
                symlink("deep.pdf", folder.join("store/c2.pdf")).expect("a link");
            }
            symlink(to, folder.join(link)).expect("a link");
            let (status, _, err) = run(&["issue", &file, "--output", &folder.join(link).to_string_lossy()]);
            assert_eq!(status, Some(1), "{link}: {err}");
            assert_eq!(folder.join(link).read_link().expect("still a link"), Path::new(to));
            let target = folder.join(target);
            assert!(target.symlink_metadata().expect("there").is_file());
            assert!(std::fs::read(target).expect("there") == issued(&purpose("review", 40), Build::Record), "{link}");
        }
        symlink("circle.pdf", folder.join("circle.pdf")).expect("a link");
        let (status, _, err) = run(&["issue", &file, "--output", &folder.join("circle.pdf").to_string_lossy()]);
        assert!(status == Some(2) && err.contains("circle"), "{err}");
        // Through a link to the job file.
        symlink("job.yaml", folder.join("job-link.pdf")).expect("a link");
        let (status, _, err) = run(&["issue", &file, "--replace", "--output", &folder.join("job-link.pdf").to_string_lossy()]);
        assert!(status == Some(2) && err.contains("is the file itself that was read"), "{err}");
        assert_eq!(std::fs::read(&file).expect("there"), purpose("review", 40).as_bytes());
    }

    #[test]
    fn a_pipe_is_written_into() {
        let folder = folder("pipe");
        let pipe = folder.join("package.pdf");
        assert!(Command::new("mkfifo").arg(&pipe).status().expect("mkfifo is there (coreutils)").success());
        let file = written(&folder, "job.yaml", purpose("permit", 40).as_bytes());
        let reader = {
            let pipe = pipe.clone();
            std::thread::spawn(move || {
                let mut bytes = Vec::new();
                std::fs::File::open(pipe).and_then(|mut pipe| pipe.read_to_end(&mut bytes)).expect("read");
                bytes
            })
        };
        let (status, out, err) = run(&["issue", &file, "--output", &pipe.to_string_lossy()]);
        let still = pipe.symlink_metadata().expect("there").file_type().is_fifo();
        assert!(still, "a pipe was renamed over");
        assert_eq!((status, out.trim_end()), (Some(1), &*pipe.to_string_lossy()), "{err}");
        assert!(reader.join().expect("ended") == issued(&purpose("permit", 40), Build::Record));
        assert_eq!(names(&folder), ["job.yaml", "package.pdf"]);
        // A sheet that names the file of a package has none to name.
        let (status, _, err) = run(&["issue", &file, "--authentication", "--output", "/dev/null"]);
        assert!(status == Some(2) && err.contains("names the file of its package"), "{err}");
    }

    #[test]
    fn the_standard_output_takes_a_package_and_nothing_else() {
        let folder = folder("standard-output");
        let file = written(&folder, "job.yaml", purpose("permit", 40).as_bytes());
        let package = issued(&purpose("permit", 40), Build::Record);
        symlink("/dev/stdout", folder.join("link")).expect("a link");
        let link = folder.join("link").to_string_lossy().into_owned();
        for output in ["/dev/stdout", "-", "/dev/fd/1", "/proc/self/fd/1", &link] {
            let piped = latewood(&["issue", &file, "--output", output]).output().expect("the program runs");
            assert!(piped.stdout == package, "{output}: {}", String::from_utf8_lossy(&piped.stderr));
            // Into a file, behind what is there: not over it, and with nothing lost.
            let target = folder.join("target");
            std::fs::write(&target, "before ").expect("written");
            let append = std::fs::OpenOptions::new().append(true).open(&target).expect("opened");
            assert!(latewood(&["issue", &file, "--output", output]).stdout(append).status().expect("the program runs").code() == Some(1));
            assert!(std::fs::read(&target).expect("there") == [b"before ", package.as_slice()].concat(), "{output}");
        }
        assert!(Path::new("/dev/stdout").symlink_metadata().expect("there").is_symlink());
        let full = latewood(&["issue", &file, "--output", "/dev/full"]).stdout(Stdio::piped()).output().expect("the program runs");
        let err = String::from_utf8_lossy(&full.stderr).into_owned();
        assert!(full.status.code() == Some(2) && err.starts_with("error: cannot write /dev/full"), "{err}");
        let (status, _, err) = run(&["issue", &file, "--output", &folder.to_string_lossy()]);
        assert!(status == Some(2) && err.contains("it is a folder"), "{err}");
    }
}

#[test]
fn a_submittal_says_which_issue_it_is() {
    // A copy without attachments is known by its comment, which the digest covers.
    let label = latewood::package::IssueLabel::carried(&SUBMITTAL).expect("a label");
    assert_eq!((label.number.as_str(), label.revision.as_str(), label.issued_for.as_str()), ("#1", "A", "permit"));
    assert_eq!(latewood::package::IssueLabel::carried(&signed(&SUBMITTAL)), Some(label));
    let at = SUBMITTAL.windows(10).rposition(|part| part == br##""revision""##).expect("the label");
    let mut altered = SUBMITTAL.clone();
    altered[at + 12] = b'B';
    assert_eq!(latewood::package::IssueLabel::carried(&altered), None);
}
