//! Lists what is embedded: the fonts and the templates, in name order, so that a new file needs no second entry in Rust.

use std::io::{Error, Result};
use std::path::{Path, PathBuf};
use std::{env, fs};

fn main() -> Result<()> {
    let fonts = listed("fonts", "otf")?.iter().map(|path| format!("include_bytes!({path:?}),\n")).collect::<String>();
    let mut templates = String::new();
    for path in listed("templates", "typ")? {
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        templates.push_str(&format!("({name:?}, include_str!({path:?})),\n"));
    }
    write("fonts.rs", &format!("/// The fonts, in the order of their names.\nstatic FONTS: &[&[u8]] = &[\n{fonts}];\n"))?;
    write("templates.rs", &format!("/// Our own templates: name and text.\nstatic BUILT_IN: &[(&str, &str)] = &[\n{templates}];\n"))
}

/// The files of a folder with this ending, in the order of their names.
fn listed(folder: &str, ending: &str) -> Result<Vec<PathBuf>> {
    println!("cargo:rerun-if-changed={folder}");
    let root = PathBuf::from(env::var("CARGO_MANIFEST_DIR").map_err(Error::other)?);
    let mut paths = Vec::new();
    for entry in fs::read_dir(root.join(folder))? {
        let path = entry?.path();
        if path.extension().is_some_and(|e| e == ending) {
            paths.push(path);
        }
    }
    paths.sort();
    Ok(paths)
}

fn write(name: &str, text: &str) -> Result<()> {
    fs::write(Path::new(&env::var("OUT_DIR").map_err(Error::other)?).join(name), text)
}
