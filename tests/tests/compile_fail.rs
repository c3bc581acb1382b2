//! Mixing up units and kinds does not compile. The compiler's words are kept beside each case.

#[test]
fn what_must_not_be_mistaken_for_each_other_does_not_compile() {
    trybuild::TestCases::new().compile_fail("compile-fail/*.rs");
}
