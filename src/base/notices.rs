//! The readers' own messages, one row each: a plain name, what the label says, what to do.

use super::finding::Class;

/// A kind of message that the readers give. Named in the words of a joiner, never by a code.
#[derive(Debug)]
pub struct Notice {
    /// Plain-word name, unique.
    pub name: &'static str,
    /// Unread or unchecked; advised where what is told hinders no check.
    pub class: Class,
    /// What the main label says.
    pub label: &'static str,
    /// What to do, unless the place knows better.
    pub help: &'static str,
}

macro_rules! notices {
    ($($id:ident $class:ident $name:literal, $label:literal, $help:literal;)*) => {
        $(#[doc = $name] pub static $id: Notice = Notice { name: $name, class: Class::$class, label: $label, help: $help };)*
        /// Every notice, for the tests over the whole table and for the reference.
        pub static NOTICES: &[&Notice] = &[$(&$id),*];
    };
}

notices! {
    NOT_A_STATEMENT Unread "not a statement", "neither `property: value` nor `kind {`", "Write `property: value`, or `kind name {` for a thing that has parts.";
    MISSING_COLON Unread "missing colon", "a colon is missing here", "Put a colon between the property and its value.";
    MISSING_VALUE Unread "missing value", "nothing is stated", "Write the value after the colon.";
    UNCLOSED_BRACE Unread "unclosed brace", "opened here and never closed", "Close it with `}` where the thing ends.";
    STRAY_BRACE Unread "stray brace", "closes nothing", "Take it out, or open the block it should close.";
    UNCLOSED_QUOTE Unread "unclosed quote", "opened here, not closed on its line", "Close the text with a quote on the same line. An inch mark stands right after its number; inside a text write `in`.";
    NESTED_TOO_DEEP Unchecked "nested too deep", "one level too many opens here", "A design needs three or four levels; look for braces that were never closed.";
    TOO_LARGE Unchecked "too large", "", "A design is a few kilobytes; more than one megabyte is refused.";
    NOT_TEXT Unchecked "not text", "the first byte that is not UTF-8", "Save the file as UTF-8 text.";
    EMPTY Unchecked "nothing in it", "", "Start with `stair \"name\" {` and close it with `}`.";
    UNKNOWN_KIND Unread "unknown kind", "no such thing is known", "";
    UNKNOWN_PROPERTY Unread "unknown property", "no such property is known here", "";
    WRONG_PLACE Unread "wrong place", "does not stand here", "";
    STATED_TWICE Unread "stated twice", "stated again", "Keep one of the two.";
    MISSING_UNIT Unread "missing unit", "a bare number", "";
    WRONG_DIMENSION Unread "wrong dimension", "", "";
    WRONG_VALUE Unread "wrong value", "", "";
    UNKNOWN_WORD Unread "unknown word", "not one of the words this takes", "";
    IMPOSSIBLE_NUMBER Unread "impossible number", "", "";
    UNCLEAR_SUBTRACTION Unread "unclear subtraction", "blanks round the hyphen", "";
    UNCLEAR_LIST Unread "unclear list", "a list, or a decimal comma?", "Put a blank after each comma of a list; write a decimal with a point.";
    UNKNOWN_NAME Unread "unknown name", "nothing drawn has this name", "";
    NAMED_TWICE Unread "named twice", "this name is taken", "Give each its own name.";
    UNCLEAR_FLIGHT Unread "unclear flight", "there are several flights", "Nest it in the flight it serves, or say `along:` and the flight's name.";
    TOO_MANY Unread "too many things", "one more than can be checked", "Split the file; five thousand things in one design are refused.";
    NO_RULES Unchecked "no rules asked for", "states no `rules:`", "Add `rules: residential, workshop`, or give `--rules NAME` on the command line.";
    UNKNOWN_SET Unchecked "unknown ruleset", "no such set", "";
    UNREADABLE Unchecked "unreadable", "", "";
    NO_DESIGNS Unchecked "no designs", "", "Designs are files whose names end in `.stair`.";
    UNREAD_CLAUSE Unread "unread clause", "", "A clause reads `each KIND [where CONDITION] shall have REQUIREMENT`.";
    UNKNOWN_QUANTITY Unread "unknown quantity", "no such quantity or limit is known here", "";
    MIXED_DIMENSIONS Unread "mixed dimensions", "", "";
    NOT_A_CONDITION Unread "not a condition", "a value, where something true or false belongs", "";
    UNUSED_LIMIT Unread "unused limit", "the clause never reads it", "Take it out, or use it in the clause.";
    MISSING_CLAUSE Unread "missing clause", "this rule asks for nothing", "Add `each KIND shall have ...`.";
    MISSING_SOURCE Unread "missing source", "this rule names no source", "Add `source:` with the document and clause, or `source: \"common practice\"`.";
    UNPROVEN Unread "unproven rule", "the fragment does not do what it is there for", "";
    MISSING_VERB Unread "missing verb", "no `shall have` and no `should have`", "";
    MISSING_NAME Unread "missing name", "goes by no name", "";
    MISSING_REASON Unread "missing reason", "withdrawn without a reason", "Add `because:` and say in a sentence why. Until then the rule stays in force.";
    WITHDRAWN Unread "withdrawn rule", "this rule is no longer there", "";
    NOTHING_CHANGED Advised "nothing changed", "as it was", "State only what differs.";
    ANOTHER_UNIT Advised "another unit", "another unit, and far from what it was", "";
    UNPROVEN_AMENDMENT Advised "unproven amendment", "amended without proof of its own", "";
    NEVER_HOLDS Unread "never holds", "this can never be so", "Change one of the two, or join them with `or`.";
    CROSSED_BOUNDS Unread "crossed bounds", "nothing lies between", "Put the smaller figure first, or leave room between the two.";
    NEVER_PASSES Unread "never passes", "never so where the rule applies", "Whatever the rule applies to would break it: change the `where`, or what is asked.";
    ALWAYS_HOLDS Unread "always holds", "holds whatever is built", "Take it out, or ask for more than is given already.";
    NOT_STOCKED Advised "not stocked", "not in the shop's stock", "";
    CIRCULAR_SETS Unchecked "circular sets", "this closes the circle", "Take one of the `amends:` out.";
    AMENDED_TOO_DEEP Unchecked "amended too deep", "one set too many", "Sixteen sets may take one another in, one after the other.";
}

#[cfg(test)]
mod tests {
    use super::NOTICES;

    #[test]
    fn names_are_unique_plain_words() {
        let mut seen = std::collections::BTreeSet::new();
        for notice in NOTICES {
            assert!(seen.insert(notice.name), "{} stands twice", notice.name);
            assert!(notice.name.chars().all(|c| c.is_ascii_lowercase() || c == ' '), "{}", notice.name);
        }
    }
}
