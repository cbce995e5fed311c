use super::*;
use proptest::prelude::*;

fn source(text: &str) -> Source {
    Source::read("job.yaml", text.as_bytes()).expect("text is UTF-8")
}

fn tree(text: &str) -> Node {
    let (node, faults) = read(&source(text));
    assert_eq!(faults, vec![]);
    node.expect("a tree without faults")
}

fn scalar(node: &Node) -> &str {
    match &node.value {
        Value::Scalar(text) => text,
        other => panic!("not a scalar: {other:?}"),
    }
}

#[test]
fn scalars_stay_as_written() {
    let node = tree("a: 2x10\nb: 1e3\nc: NO\nd: No.2\ne: 013\nf: '16'\ng: \"a\\tb\"\nh: 0x1F\ni: yes\nj: true\nk: 6:12\nl: +1.50\n");
    let texts: Vec<&str> = "abcdefghijkl".chars().map(|k| scalar(&node.entry(&k.to_string()).unwrap().node)).collect();
    assert_eq!(texts, ["2x10", "1e3", "NO", "No.2", "013", "16", "a\tb", "0x1F", "yes", "true", "6:12", "+1.50"]);
}

#[test]
fn places_are_bytes_also_behind_accents() {
    let source = source("# träger: é…\nname: Müllerstraße\nlist: [ü, {a: ö }]\n");
    let node = read(&source).0.unwrap();
    assert_eq!(source.at(node.entry("name").unwrap().node.span), "Müllerstraße");
    let list = &node.entry("list").unwrap().node;
    assert_eq!(source.at(list.span), "[ü, {a: ö }]");
    let Value::List(items) = &list.value else { panic!("not a list") };
    assert_eq!(source.at(items[1].span), "{a: ö }");
    assert_eq!(source.at(items[1].entry("a").unwrap().node.span), "ö");
}

#[test]
fn a_block_ends_with_its_last_part() {
    let source = source("members:\n  - mark: J1\n    spans: [1, 2]\n  - mark: J2\n\n# end\nempty:\nnext: 1\n");
    let node = read(&source).0.unwrap();
    let Value::List(members) = &node.entry("members").unwrap().node.value else { panic!("not a list") };
    assert_eq!(source.at(members[0].span), "mark: J1\n    spans: [1, 2]");
    assert_eq!(source.at(members[1].span), "mark: J2");
    let empty = node.entry("empty").unwrap();
    assert_eq!((&empty.node.value, source.at(empty.node.span)), (&Value::Null, "empty"));
}

#[test]
fn a_key_given_twice_keeps_its_first_value() {
    let (node, faults) = read(&source("a: 1\nb: {c: 2, c: 3}\na: 4\n"));
    let node = node.unwrap();
    assert_eq!(scalar(&node.entry("a").unwrap().node), "1");
    assert_eq!(
        faults.iter().map(|f| (f.id, f.primary.span.start, f.secondary[0].span.start)).collect::<Vec<_>>(),
        [("key-twice", 15, 9), ("key-twice", 21, 0)]
    );
}

#[test]
fn what_could_hurt_is_refused_with_its_place() {
    for (text, id) in [
        ("", "empty-file"),
        ("# only a remark\n", "empty-file"),
        ("---\n# only a remark\n", "empty-file"),
        ("a: [?1]\n", "unclear"),
        ("a: &x 1\nb: *x\n", "anchor"),
        ("a: &x [1]\n", "anchor"),
        ("a: !!str 1\n", "tag"),
        ("a: 1\n---\nb: 2\n", "two-documents"),
        ("{a: 1}: 2\n", "key-not-text"),
        ("a:\n\tb: 1\n", "tab"),
        ("a: [1, 2\nb: 3\n", "yaml"),
        ("a: 'x\n", "yaml"),
        (&("a: ".to_owned() + &"[".repeat(200) + &"]".repeat(200)), "too-deep"),
        (&("- ".to_owned() + &"[".repeat(100_000)), "too-deep"),
        (&("a: [".to_owned() + &"1,".repeat(MOST) + "]"), "too-many"),
    ] {
        let (node, faults) = read(&source(text));
        assert!(node.is_none(), "{text:.40}");
        assert_eq!(faults.iter().map(|f| f.id).collect::<Vec<_>>(), [id], "{text:.40}");
    }
}

proptest! {
    #[test]
    fn no_text_makes_it_panic(text in "[-a-c:{}\\[\\],'\"|>&*!#?%@~ \t\né0-9.]{0,60}") {
        let source = source(&text);
        let (node, faults) = read(&source);
        prop_assert!(node.is_some() || !faults.is_empty());
        for fault in faults {
            prop_assert!(source.text().get(fault.primary.span.start..fault.primary.span.end).is_some());
        }
    }
}
