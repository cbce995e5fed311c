//! Lists what is embedded: the fonts, the templates, each code's published cases and tables that are law, in name order, so that a new
//! file needs no second entry in Rust. Names the build by a fingerprint of all that it is made from.

use std::io::{Error, Result};
use std::path::{Path, PathBuf};
use std::{env, fs};

fn main() -> Result<()> {
    println!("cargo:rustc-env=LATEWOOD_BUILD={:016x}", fingerprint()?);
    let fonts = listed("fonts", "otf")?.iter().map(|path| format!("include_bytes!({path:?}),\n")).collect::<String>();
    let mut templates = String::new();
    for path in listed("templates", "typ")? {
        templates.push_str(&format!("({:?}, include_str!({path:?})),\n", name_of(&path)));
    }
    write("fonts.rs", &format!("/// The fonts, in the order of their names.\nstatic FONTS: &[&[u8]] = &[\n{fonts}];\n"))?;
    write("templates.rs", &format!("/// Our own templates: name and text.\nstatic BUILT_IN: &[(&str, &str)] = &[\n{templates}];\n"))?;
    let (cases, laws) = (of_codes("cases", "yaml")?, of_codes("laws", "csv")?);
    write(
        "proofs.rs",
        &format!(
            "/// Published cases: code, file, text.\nstatic CASES: &[(&str, &str, &str)] = &[\n{cases}];\n\
             /// Tables that are law: code, file, text.\nstatic LAWS: &[(&str, &str, &str)] = &[\n{laws}];\n"
        ),
    )
}

/// A number that two builds share only if they were made from the same files: the program's sources with its tables, the templates, the
/// fonts, the versions of all that it uses. FNV-1a of 64 bits: it tells builds apart, and guards nothing.
fn fingerprint() -> Result<u64> {
    let root = root()?;
    let mut paths = vec![root.join("Cargo.lock")];
    for folder in ["src", "templates", "fonts"] {
        println!("cargo:rerun-if-changed={folder}");
        below(&root.join(folder), &mut paths)?;
    }
    println!("cargo:rerun-if-changed=Cargo.lock");
    paths.sort();
    let mut hash = 0xcbf2_9ce4_8422_2325;
    for path in paths {
        let name = path.strip_prefix(&root).unwrap_or(&path).to_string_lossy().replace('\\', "/");
        let bytes = fs::read(&path)?;
        for byte in name.bytes().chain((bytes.len() as u64).to_le_bytes()).chain(bytes) {
            hash = (hash ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        }
    }
    Ok(hash)
}

/// Every file below a folder.
fn below(folder: &Path, paths: &mut Vec<PathBuf>) -> Result<()> {
    for entry in fs::read_dir(folder)? {
        let path = entry?.path();
        if path.is_dir() { below(&path, paths)? } else { paths.push(path) }
    }
    Ok(())
}

/// The files with this ending in this folder of every code.
fn of_codes(folder: &str, ending: &str) -> Result<String> {
    println!("cargo:rerun-if-changed=src/codes");
    let mut codes: Vec<PathBuf> = fs::read_dir(root()?.join("src/codes"))?.map(|entry| Ok(entry?.path())).collect::<Result<_>>()?;
    codes.retain(|path| path.join(folder).is_dir());
    codes.sort();
    let mut text = String::new();
    for code in codes {
        for path in files(&code.join(folder), ending)? {
            text.push_str(&format!("({:?}, {:?}, include_str!({path:?})),\n", name_of(&code), name_of(&path)));
        }
    }
    Ok(text)
}

/// The files of a folder with this ending, in the order of their names.
fn listed(folder: &str, ending: &str) -> Result<Vec<PathBuf>> {
    println!("cargo:rerun-if-changed={folder}");
    files(&root()?.join(folder), ending)
}

fn files(folder: &Path, ending: &str) -> Result<Vec<PathBuf>> {
    let mut paths: Vec<PathBuf> = fs::read_dir(folder)?.map(|entry| Ok(entry?.path())).collect::<Result<_>>()?;
    paths.retain(|path| path.extension().is_some_and(|e| e == ending));
    paths.sort();
    Ok(paths)
}

fn root() -> Result<PathBuf> {
    env::var("CARGO_MANIFEST_DIR").map(PathBuf::from).map_err(Error::other)
}

fn name_of(path: &Path) -> String {
    path.file_name().unwrap_or_default().to_string_lossy().into_owned()
}

fn write(name: &str, text: &str) -> Result<()> {
    fs::write(Path::new(&env::var("OUT_DIR").map_err(Error::other)?).join(name), text)
}
