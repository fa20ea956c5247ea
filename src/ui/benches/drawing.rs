//! Shapes of a drawing, in its own units.

use crate::ui::dom::{El, svg};

/// A rectangle.
pub(in crate::ui) fn rect(class: &str, (x, y): (i64, i64), (width, height): (i64, i64)) -> El {
    let shape = svg("rect").class(class).attr("x", &x.to_string()).attr("y", &y.to_string());
    shape.attr("width", &width.max(2).to_string()).attr("height", &height.to_string())
}

/// A line.
pub(in crate::ui) fn line(class: &str, (x1, y1): (i64, i64), (x2, y2): (i64, i64)) -> El {
    let shape = svg("line").class(class).attr("x1", &x1.to_string()).attr("y1", &y1.to_string());
    shape.attr("x2", &x2.to_string()).attr("y2", &y2.to_string())
}

/// A text.
pub(in crate::ui) fn text(class: &str, (x, y): (i64, i64), said: &str) -> El {
    svg("text").class(class).attr("x", &x.to_string()).attr("y", &y.to_string()).text(said)
}
