//! The list of a package's files, and which needs which.

use super::item::Item;
use super::test;
use super::xml::{Element, element};

/// The list.
pub fn manifest(items: &[Item]) -> Element {
    let file = |path: &str| element("file").with("href", path);
    let needs = |id: String| element("dependency").with("identifierref", id);
    let metadata = element("metadata")
        .put(element("schema").text("QTI Package"))
        .put(element("schemaversion").text("3.0.0"));
    let whole = element("resource")
        .with("identifier", "r-paper")
        .with("type", "imsqti_test_xmlv3p0")
        .with("href", test::PATH)
        .put(file(test::PATH))
        .all(items.iter().map(|item| needs(resource(item))));
    let each = items.iter().map(|item| {
        let drawn = item.figure.iter().map(|figure| file(&figure.path));
        element("resource")
            .with("identifier", resource(item))
            .with("type", "imsqti_item_xmlv3p0")
            .with("href", item.path())
            .put(file(&item.path()))
            .all(drawn)
    });
    element("manifest")
        .with(
            "xmlns",
            "http://www.imsglobal.org/xsd/qti/qtiv3p0/imscp_v1p1",
        )
        .with("identifier", "pkg-paper")
        .put(metadata)
        .put(element("organizations"))
        .put(element("resources").put(whole).all(each))
}

fn resource(item: &Item) -> String {
    format!("r-{}", item.id)
}
