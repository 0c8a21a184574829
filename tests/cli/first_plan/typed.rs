//! Lines that cannot be taken as they were typed: refused whole, and asked for again.

use super::first_plan_asked::on_one_line;

/// What is asked and said with these bytes as answers, and the title of the plan that comes of them.
fn title_of(answers: &[u8]) -> (String, String) {
    let mut said = Vec::new();
    let plan = plain_plan::ask(answers, &mut said, true).expect("a plan");
    (plan.title, on_one_line(&String::from_utf8(said).expect("UTF-8")))
}

/// The rest of a plan is taken as usual.
fn all_usual() -> Vec<u8> {
    b"\n".repeat(30)
}

/// Its end is not taken for the next answer. A terminal cuts lines at 4,095 bytes: termios(3), canonical mode.
#[test]
fn a_line_that_is_too_long_is_refused_whole() {
    let long = |count: usize| "Barn ".repeat(count / 5) + &"x".repeat(count % 5);
    for (count, is_taken) in
        [(102, true), (4_094, false), (9_999, false), (10_001, false), (50_000, false)]
    {
        let answers = format!("us\n{}\nShed\n", long(count));
        let (title, said) = title_of(&[answers.as_bytes(), &all_usual()].concat());
        let refused = said.matches("Not taken: that line is longer than 4000 bytes").count();
        assert_eq!(refused, usize::from(!is_taken), "{count}: {said}");
        assert_eq!(title, if is_taken { long(count) } else { "Shed".to_owned() }, "{count}");
        let asked = said.matches("What is burning, and where").count();
        assert_eq!(asked, if is_taken { 1 } else { 2 }, "{count}: {said}");
    }
    // With nothing behind it there is no answer.
    let ended = plain_plan::ask(long(9_000).as_bytes(), std::io::sink(), true);
    assert!(matches!(ended, Err(plain_plan::AskError::EndOfAnswers)), "{ended:?}");
}

/// A name is never altered: what is no UTF-8 (RFC 3629) is refused, the answers beside it too.
#[test]
fn a_line_that_is_not_utf_8_is_refused_whole() {
    for (bytes, is_taken) in [
        ("M\u{fc}hle; 300".as_bytes(), true),
        // As ISO 8859-1 has it, and cut within a letter.
        (b"M\xfchle; 300".as_slice(), false),
        (b"M\xc3; 300".as_slice(), false),
    ] {
        let (title, said) = title_of(&[b"us\n", bytes, b"\nMill\n", &all_usual()].concat());
        assert_eq!(title, if is_taken { "M\u{fc}hle" } else { "Mill" }, "{said}");
        let refused = said.matches("Not taken: that line has signs that are not UTF-8").count();
        assert_eq!(refused, usize::from(!is_taken), "{said}");
        assert_eq!(said.matches("What is burning, and where").count(), 1 + refused, "{said}");
        assert!(!said.contains('\u{fffd}'), "{said}");
        assert_eq!(
            said.matches("How much water do all lines").count(),
            usize::from(!is_taken),
            "{said}"
        );
    }
}
