//! The slice that lists the tables of a code.

/// Declares a code's tables from the files of its folder `tables`, and the slice `ALL` of them in the order of the list.
///
/// The module that uses it stands beside that folder; `table::slice::is_whole` is the test of the list.
#[macro_export]
macro_rules! tables {
    ($($(#[$doc:meta])* $name:ident = $file:literal;)*) => {
        $(
            $(#[$doc])*
            pub static $name: std::sync::LazyLock<$crate::table::Table> =
                std::sync::LazyLock::new(|| $crate::table::Table::embedded($file, include_str!(concat!("tables/", $file))));
        )*

        /// Every table, in the order in which a reader would look for them.
        pub static ALL: &[&std::sync::LazyLock<$crate::table::Table>] = &[$(&$name),*];
    };
}

/// Whether a slice lists every file of a code's folder, and each is a table with rows and a heading without holes.
///
/// Reading a table is most of the test: heading, units, keys and statuses are made sure of by [`super::Table::parse`].
#[cfg(test)]
pub(crate) fn is_whole(all: &[&std::sync::LazyLock<super::Table>], code: &str) {
    for table in all {
        let file = table.file();
        assert!(table.rows().count() > 0, "{file} has no rows");
        assert!(!table.heading().notes.contains("  "), "{file}: the heading has holes");
    }
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/codes").join(code).join("tables");
    for table in all {
        let text = std::fs::read_to_string(folder.join(table.file())).unwrap();
        super::Table::parse(table.file(), &text).unwrap_or_else(|fault| panic!("{fault}"));
    }
    let mut there: Vec<String> = std::fs::read_dir(folder).unwrap().map(|f| f.unwrap().file_name().into_string().unwrap()).collect();
    there.retain(|name| name.ends_with(".csv"));
    there.sort();
    let mut listed: Vec<&str> = all.iter().map(|table| table.file()).collect();
    listed.sort_unstable();
    assert_eq!(there, listed);
}
