//! Files that somebody made to do harm: each command ends soon, with little memory, and a clear line.
//!
//! The files have a digest that holds and, where it matters, the attachments that a package has, so that each command gets as far as it can.
//! Time and memory are those of the child process; they are printed as a table.

use super::{B, folder, job, names, run, written};
use flate2::Compression;
use flate2::write::ZlibEncoder;
use std::io::Write as _;
use std::path::Path;
use std::process::Command;
use std::time::Instant;

/// What each command may take: time on the processor, so that other work beside the test does not count.
const MEGABYTES: u64 = 200;
const SECONDS: f64 = 2.0;

/// A PDF of these objects, numbered from 1, with this in its trailer; the digest holds.
fn pdf(objects: &[Vec<u8>], trailer: &str) -> Vec<u8> {
    let (mut bytes, mut places) = (b"%PDF-1.7\n".to_vec(), Vec::new());
    for (i, object) in objects.iter().enumerate() {
        places.push(bytes.len());
        bytes.extend(format!("{} 0 obj\n", i + 1).bytes().chain(object.iter().copied()).chain(*b"\nendobj\n"));
    }
    let entries: String = places.iter().map(|place| format!("{place:010} 00000 n \n")).collect();
    table(
        bytes,
        &format!("xref\n0 {}\n0000000000 65535 f \n{entries}", objects.len() + 1),
        &format!("/Size {}{trailer}", objects.len() + 1),
    )
}

/// What was written so far, with a table of these words.
fn table(mut bytes: Vec<u8>, table: &str, trailer: &str) -> Vec<u8> {
    let at = bytes.len();
    bytes.extend(format!("{table}trailer\n<</Root 1 0 R{trailer}>>\nstartxref\n{at}\n%%EOF").bytes());
    sealed(bytes)
}

/// With a digest of itself, as the program writes it: anybody can work it out.
fn sealed(mut bytes: Vec<u8>) -> Vec<u8> {
    let tail = b"startxref\n";
    let at = bytes.windows(tail.len()).rposition(|part| part == tail).expect("an end");
    bytes.splice(at..at, *b"%latewood sha256 \n");
    let hash = latewood::pdf::sha256(&bytes);
    bytes.splice(at + 17..at + 17, hash.bytes());
    assert_eq!(latewood::pdf::standing(&bytes), latewood::pdf::Standing::Whole);
    bytes
}

fn packed(bytes: &[u8]) -> Vec<u8> {
    let mut encoder = ZlibEncoder::new(Vec::new(), Compression::best());
    encoder.write_all(bytes).expect("packed");
    encoder.finish().expect("packed")
}

fn stream(heading: &str, content: &[u8]) -> Vec<u8> {
    [format!("<</Length {}{heading}>>\nstream\n", content.len()).as_bytes(), content, b"\nendstream"].concat()
}

fn plain(text: impl Into<String>) -> Vec<u8> {
    text.into().into_bytes()
}

/// A catalog, a page, and the list of these attachments from object 4 on.
fn with_attachments(names: &[(&str, usize)], more: Vec<Vec<u8>>) -> Vec<u8> {
    let list: String = names.iter().map(|(name, object)| format!("({name}) <</F({name})/EF<</F {object} 0 R>>>>")).collect();
    let catalog = format!("<</Type/Catalog/Pages 2 0 R/Names<</EmbeddedFiles<</Names[{list}]>>>>>>");
    let pages = plain("<</Type/Pages/Kids[3 0 R]/Count 1>>");
    let page = plain("<</Type/Page/Parent 2 0 R/MediaBox[0 0 612 792]>>");
    pdf(&[vec![plain(catalog), pages, page], more].concat(), "")
}

/// A file of some 5 kB each, by what is hostile in it.
fn files() -> Vec<(&'static str, Vec<u8>)> {
    // Deflate packs at most some thousand to one: 4 kB hold 4 MB, and packed twice some bytes hold 512 MB.
    let once = packed(&vec![b' '; 4 << 20]);
    let twice = packed(&packed(&vec![0; 512 << 20]));
    let flate = "/Filter/FlateDecode";
    let many: Vec<(&str, usize)> = std::iter::repeat_n(("job.yaml", 4), 50).collect();
    let predictor = "/Filter/FlateDecode/DecodeParms<</Predictor 15/Columns 2000000000/Colors 32/BitsPerComponent 16>>";
    let compressed = stream("/Type/XRef/Size 2147483647/W[0 0 0]/Index[0 2147483647]/Filter/FlateDecode/Root 1 0 R", &once);
    let objects = stream("/Type/ObjStm/N 1000000/First 0/Extends 4 0 R/Filter[/FlateDecode/FlateDecode]", &twice);
    let at = 9;
    let tables = format!("%PDF-1.7\n4 0 obj\n{}", String::new()).into_bytes();
    let stream_table = [tables, compressed, b"\nendobj\n".to_vec()].concat();
    let mut stream_table = [stream_table, format!("startxref\n{at}\n%%EOF").into_bytes()].concat();
    stream_table = sealed(stream_table);
    let head = || b"%PDF-1.7\n".to_vec();
    let deep = |open: &str, close: &str| with_attachments(&[("job.yaml", 4)], vec![plain(open.repeat(1_200) + &close.repeat(1_200))]);
    let kids = plain("<</Type/Catalog/Pages 2 0 R/Names<</EmbeddedFiles 3 0 R>>>>");
    let sizes: String = (0..60).map(|i| format!("{} 0 R ", i + 3)).collect();
    let sized = (0..60).map(|i| plain(format!("<</Type/Page/Parent 2 0 R/MediaBox[0 0 {} 99]>>", 100 + i)));
    let pages = vec![plain("<</Type/Catalog/Pages 2 0 R>>"), plain(format!("<</Kids[{sizes}]>>"))];
    vec![
        ("an attachment that unpacks to 4 MB, 50 times", with_attachments(&many, vec![stream(flate, &once)])),
        (
            "an attachment that is packed twice",
            with_attachments(&[("job.yaml", 4)], vec![stream("/Filter[/FlateDecode/FlateDecode]", &twice)]),
        ),
        ("an attachment with a predictor", with_attachments(&[("job.yaml", 4)], vec![stream(predictor, &once)])),
        ("an object stream that holds itself, packed twice", with_attachments(&[("job.yaml", 5)], vec![objects])),
        ("a cross-reference stream of 2147483647 entries", stream_table),
        ("a cross-reference of 2147483647 entries", table(head(), "xref\n0 2147483647\n0000000000 65535 f \n", "/Size 2147483647")),
        ("a cross-reference that leads to itself", table(head(), "xref\n0 1\n0000000000 65535 f \n", "/Size 1/Prev 9")),
        ("a page tree that leads to itself", pdf(&[plain("<</Pages 2 0 R>>"), plain("<</Kids[2 0 R 2 0 R]>>")], "")),
        ("a name tree that leads to itself", pdf(&[kids, plain("<</Kids[]>>"), plain("<</Kids[3 0 R 3 0 R]>>")], "")),
        ("arrays in each other, 1200 deep", deep("[", "]")),
        ("dictionaries in each other, 1200 deep", deep("<</A", ">>")),
        ("a string of brackets, 1200 deep", deep("(", ")")),
        (
            "a stream with a false length",
            with_attachments(&[("job.yaml", 4)], vec![plain("<</Length 999999999999>>\nstream\n\nendstream")]),
        ),
        ("a stream that is as long as itself", with_attachments(&[("job.yaml", 4)], vec![plain("<</Length 4 0 R>>\nstream\n\nendstream")])),
        ("60 sizes of pages", pdf(&pages.into_iter().chain(sized).collect::<Vec<_>>(), "")),
    ]
}

/// Runs a program, then tells on a last line its status, its seconds on the processor and the most memory that it had, in kB.
const WATCHED: &str = "import resource, subprocess, sys
status = subprocess.run(sys.argv[1:], stdin=subprocess.DEVNULL, stderr=subprocess.STDOUT).returncode
used = resource.getrusage(resource.RUSAGE_CHILDREN)
print(f'\\n{status} {used.ru_utime + used.ru_stime:.2f} {used.ru_maxrss}', flush=True)";

/// What a command came to.
struct Ended {
    status: i32,
    said: String,
    seconds: f64,
    kilobytes: u64,
}

fn ended(arguments: &[&str]) -> Ended {
    let python = super::signed::python();
    let output = Command::new(python).args(["-c", WATCHED, env!("CARGO_BIN_EXE_latewood")]).args(arguments).output().expect("Python runs");
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    let (said, last) = text.trim_end().rsplit_once('\n').unwrap_or_else(|| panic!("{arguments:?}: {text}"));
    let numbers: Vec<&str> = last.split(' ').collect();
    Ended {
        status: numbers[0].parse().expect("a status"),
        said: said.trim().to_owned(),
        seconds: numbers[1].parse().expect("seconds"),
        kilobytes: numbers[2].parse().expect("kilobytes"),
    }
}

#[test]
fn a_hostile_file_ends_soon_with_little_memory_and_a_clear_line() {
    let folder = folder("hostile");
    let (b, office) = (written(&folder, "b.pdf", &B), folder.join("office").to_string_lossy().into_owned());
    let mut table = String::from("| file | bytes | seconds, MB: extract | recheck | supersede | archive file | says |\n");
    for (name, bytes) in files() {
        assert!(bytes.len() < 9_000, "{name}: {} bytes", bytes.len());
        let path = written(&folder, "hostile.pdf", &bytes);
        let mut row = format!("| {name} | {} |", bytes.len());
        let mut says = String::new();
        for arguments in
            [&["extract", &path][..], &["recheck", &path], &["supersede", &path, "--by", &b], &["archive", &office, "file", &path]]
        {
            let Ended { status, said, seconds, kilobytes } = ended(arguments);
            assert_eq!((status, said.lines().count()), (2, 1), "{name}: {arguments:?}: {said}");
            assert!(said.contains("hostile.pdf") && !said.contains("panicked"), "{name}: {said}");
            assert!(seconds < SECONDS && kilobytes < MEGABYTES << 10, "{name}: {arguments:?}: {seconds} s, {kilobytes} kB");
            row.push_str(&format!(" {seconds:.2}, {} |", kilobytes >> 10));
            if arguments[0] == "extract" {
                says = said.rsplit_once("hostile.pdf").map_or(said.clone(), |(_, why)| why.trim_start_matches(": ").to_owned());
            }
        }
        table.push_str(&format!("{row} {says} |\n"));
    }
    println!("{table}");
    assert_eq!(names(&folder), ["b.pdf", "hostile.pdf"], "nothing is written");
}

#[test]
fn pages_of_many_sizes_and_layers_without_end_are_not_stamped() {
    let stamp = latewood::pdf::Stamp { large: "SUPERSEDED".into(), small: "by B".into(), by: "a test".into() };
    let sized = files().into_iter().find(|(name, _)| name.contains("sizes")).expect("there").1;
    let why = latewood::pdf::stamp(&sized, &stamp).expect_err("60 sizes").to_string();
    assert!(why.contains("more than 8 sizes"), "{why}");
    for side in ["1e9", "99999999", "0"] {
        let page = plain(format!("<</Parent 2 0 R/MediaBox[0 0 {side} 99]>>"));
        let file = pdf(&[plain("<</Pages 2 0 R>>"), plain("<</Kids[3 0 R]>>"), page], "");
        assert!(latewood::pdf::stamp(&file, &stamp).is_err(), "{side}");
    }
}

/// A package whose attached templates are these; its digest holds.
fn with_template(name: &str, text: &str) -> Vec<u8> {
    use latewood::package::{self, Build, Templates};
    let file = job("A", "2026-01-05");
    let checked = super::checked(&file);
    let templates = Templates::built_in();
    let mut made = package::sources(&checked.job, &checked.results, file.as_bytes(), Build::Record, &templates).expect("our own templates");
    made.files.push(latewood::pdf::File { path: format!("/templates/{name}"), bytes: text.as_bytes().to_vec() });
    let main = made.sheets.iter_mut().find(|sheet| sheet.path == "/main.typ").expect("the main source");
    main.text.push_str(&format!(
        "\n#pdf.attach(\"/templates/{name}\", relationship: \"source\", mime-type: \"text/plain\", description: \"A template\")\n"
    ));
    latewood::pdf::Press::new().pdf(&made.sheets, &made.files, &made.options).expect("our own templates")
}

/// Templates that do harm, and what is said of each.
const TEMPLATES: [(&str, &str); 4] = [
    // Filling it takes too much: instructions, or data.
    ("{% for a in range(9999) %}{% for b in range(9999) %}{% for c in range(9999) %}x{% endfor %}{% endfor %}{% endfor %}", "fuel"),
    ("{{ \"x\" * 4000000000 }}", "fuel"),
    // Typesetting it takes all memory, or pages without end.
    ("= A\n#let a = (1,)\n#for i in range(40) { a = a + a }\n#a.len()", "broke off"),
    (concat!(include_str!("../../templates/cover.typ"), "\n#for a in range(300) { pagebreak() }\nend"), "260 are the most"),
];

#[test]
fn templates_that_do_harm_are_stopped() {
    let folder = folder("harmful");
    let file = written(&folder, "job.yaml", job("A", "2026-01-05").as_bytes());
    let own = folder.join("own");
    std::fs::create_dir(&own).expect("a folder");
    let own = own.to_string_lossy().into_owned();
    for (text, says) in TEMPLATES {
        written(Path::new(&own), "cover.typ", text.as_bytes());
        let Ended { status, said, .. } = ended(&["issue", &file, "--templates", &own]);
        assert!(status == 2 && said.starts_with("error: ") && said.contains(says) && said.lines().count() == 1, "{text}: {said}");
        let package = written(&folder, "a.pdf", &with_template("cover.typ", text));
        let (status, out, _) = run(&["recheck", &package]);
        assert!(status == Some(1) && out.contains("cannot be issued again") && out.contains(says), "{text}: {out}");
        assert_eq!(run(&["extract", &package]).1, job("A", "2026-01-05"));
    }
    assert_eq!(names(&folder), ["a.pdf", "job.yaml", "own"], "no package is written");
}

#[test]
fn a_template_that_never_ends_is_stopped_when_its_time_is_over() {
    use latewood::package::{Build, Issue, Templates};
    use latewood::pdf::{Limits, Press};
    let file = job("A", "2026-01-05");
    let checked = super::checked(&file);
    let endless = "= A\n#for a in range(9999) { for b in range(9999) { for c in range(9999) {} } }\n";
    let templates = Templates::with_office([("cover.typ".to_owned(), endless.to_owned())]);
    let (job, results) = (&checked.job, &checked.results);
    let issue = Issue { job, results, job_file: file.as_bytes(), build: Build::Record, templates: &templates, reissue: None };
    let limits = Limits { seconds: 3, ..Limits::of(3) };
    let mut press = Press::new().apart(env!("CARGO_BIN_EXE_latewood").into(), Some(limits));
    let begun = Instant::now();
    let why = issue.pdf_on(&mut press).expect_err("it has no end").to_string();
    assert!(why.contains("stopped after 3 s") && begun.elapsed().as_secs() < 30, "{why}");
}

#[test]
fn an_office_template_is_typeset_apart_and_rechecked() {
    let folder = folder("office-template");
    let file = written(&folder, "job.yaml", job("A", "2026-01-05").as_bytes());
    let own = folder.join("own");
    std::fs::create_dir(&own).expect("a folder");
    let ours = std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/templates/references.typ")).expect("our template");
    written(&own, "references.typ", format!("{ours}\nA line of the office's own.\n").as_bytes());
    let package = folder.join("a.pdf").to_string_lossy().into_owned();
    let (status, out, err) = run(&["issue", &file, "--templates", &own.to_string_lossy(), "--authentication", "--output", &package]);
    assert_eq!((status, out.lines().count()), (Some(1), 2), "{err}");
    assert!(crate::pages::text_of(&std::fs::read(&package).expect("written")).contains("A line of the office"));
    let (status, out, _) = run(&["recheck", &package]);
    assert!(status == Some(0) && out.contains("are the same"), "{out}");
}

#[test]
#[cfg(unix)]
fn only_regular_files_of_a_size_are_templates() {
    let folder = folder("irregular");
    let file = written(&folder, "job.yaml", job("A", "2026-01-05").as_bytes());
    let own = folder.join("own");
    std::fs::create_dir(&own).expect("a folder");
    let named = own.join("cover.typ");
    let pipe = || assert!(Command::new("mkfifo").arg(&named).status().is_ok_and(|status| status.success()), "mkfifo (coreutils)");
    let link = |to: &str| std::os::unix::fs::symlink(to, &named).expect("linked");
    let large = || std::fs::write(&named, vec![b' '; (1 << 20) + 1]).expect("written");
    let cases: [(&dyn Fn(), &str); 4] = [
        (&pipe, "cover.typ: not a regular file"),
        (&|| link("cover.typ"), "cover.typ: "),
        (&|| link("/dev/zero"), "cover.typ: not a regular file"),
        (&large, "cover.typ: larger than 1 MB"),
    ];
    for (make, says) in cases {
        make();
        let Ended { status, said, seconds, .. } = ended(&["issue", &file, "--templates", &own.to_string_lossy()]);
        assert!(status == 2 && said.contains(says) && said.lines().count() == 1 && seconds < SECONDS, "{said}");
        std::fs::remove_file(&named).expect("removed");
    }
    for i in 0..65 {
        std::fs::write(own.join(format!("part-{i}.typ")), "x").expect("written");
    }
    let (status, _, err) = run(&["issue", &file, "--templates", &own.to_string_lossy()]);
    assert!(status == Some(2) && err.contains("more than 64 templates"), "{err}");
    // A pipe is no package either.
    pipe();
    for arguments in [&["extract", &named.to_string_lossy()][..], &["recheck", &named.to_string_lossy()]] {
        let Ended { status, said, .. } = ended(arguments);
        assert!(status == 2 && said.contains("not a file"), "{said}");
    }
}
