//! A tree of elements, and how it is written.

use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesEnd, BytesStart, BytesText, Event};

/// An element with what stands inside it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Element {
    name: &'static str,
    attributes: Vec<(&'static str, String)>,
    inside: Vec<Node>,
}

#[derive(Debug, Clone, PartialEq, Eq)]
enum Node {
    Element(Element),
    Text(String),
    /// Text that is HTML already.
    Html(String),
}

/// An element of this name.
pub const fn element(name: &'static str) -> Element {
    Element {
        name,
        attributes: Vec::new(),
        inside: Vec::new(),
    }
}

impl Element {
    /// The same with an attribute.
    #[must_use]
    pub fn with(mut self, name: &'static str, value: impl Into<String>) -> Self {
        self.attributes.push((name, value.into()));
        self
    }

    /// The same with text inside.
    #[must_use]
    pub fn text(mut self, text: impl Into<String>) -> Self {
        self.inside.push(Node::Text(text.into()));
        self
    }

    /// The same with text inside that is HTML already.
    #[must_use]
    pub fn html(mut self, html: impl Into<String>) -> Self {
        self.inside.push(Node::Html(html.into()));
        self
    }

    /// The same with an element inside.
    #[must_use]
    pub fn put(mut self, element: Self) -> Self {
        self.inside.push(Node::Element(element));
        self
    }

    /// The same with elements inside.
    #[must_use]
    pub fn all(mut self, elements: impl IntoIterator<Item = Self>) -> Self {
        self.inside.extend(elements.into_iter().map(Node::Element));
        self
    }

    /// The element as a file.
    pub fn document(&self) -> String {
        let mut writer = Writer::new(Vec::new());
        let declared = BytesDecl::new("1.0", Some("UTF-8"), None);
        // Writing into memory does not fail.
        let _ = writer.write_event(Event::Decl(declared));
        self.write(&mut writer);
        let mut text = String::from_utf8(writer.into_inner()).unwrap_or_default();
        if let Some(end) = text.find("?>") {
            text.insert(end + 2, '\n');
        }
        text.push('\n');
        text
    }

    fn write(&self, writer: &mut Writer<Vec<u8>>) {
        let mut start = BytesStart::new(self.name);
        for (name, value) in &self.attributes {
            start.push_attribute((*name, value.as_str()));
        }
        if self.inside.is_empty() {
            let _ = writer.write_event(Event::Empty(start));
            return;
        }
        // Between elements alone a line end changes nothing, and the file can be read.
        let parted = self
            .inside
            .iter()
            .all(|node| matches!(node, Node::Element(_)));
        let _ = writer.write_event(Event::Start(start));
        for node in &self.inside {
            if parted {
                let _ = writer.write_event(Event::Text(BytesText::from_escaped("\n")));
            }
            match node {
                Node::Element(element) => element.write(writer),
                Node::Text(text) => {
                    let _ = writer.write_event(Event::Text(BytesText::new(text)));
                }
                Node::Html(html) => {
                    let _ = writer.write_event(Event::Text(BytesText::from_escaped(html)));
                }
            }
        }
        let _ = writer.write_event(Event::End(BytesEnd::new(self.name)));
    }
}
