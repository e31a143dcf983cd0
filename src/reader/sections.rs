//! The parts of an article by their headings: where properties are stated, where uses, where the
//! author discusses, describes or prescribes.

/// What a part of an article holds.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Zone {
    /// The article's own statement: properties first, then uses.
    Statement,
    /// A part headed 氣味.
    Properties,
    /// A part headed 歸經: channels without a verb.
    Channels,
    /// A part headed 主治.
    Uses,
    /// The author discusses, quotes and argues.
    Discussion,
    /// Habitat and look: only how the drug tastes is taken from here.
    Description,
    /// Names, preparation, recipes: nothing is taken from here.
    Aside,
}

const ZONES: [(Zone, &[&str]); 7] = [
    (
        Zone::Properties,
        &[
            "气味",
            "性味",
            "味性",
            "气味归经",
            "性味归经",
            "四气五味",
            "味",
            "性",
            "气",
        ],
    ),
    (Zone::Statement, &["属性", "内容", "药性", "性能"]),
    (Zone::Channels, &["归经", "入经"]),
    (
        Zone::Uses,
        &[
            "主治", "功用", "功效", "主疗", "功能", "用", "利", "治", "合治", "主",
        ],
    ),
    (
        Zone::Discussion,
        &[
            "发明", "谨案", "谨按", "按", "论", "疏", "注", "参", "讲", "正误", "赞", "批", "害",
            "辨", "诀", "又", "案", "纪", "备考",
        ],
    ),
    (Zone::Description, &["集解", "图经", "形态"]),
    (
        Zone::Aside,
        &[
            "释名", "别名", "修治", "炮制", "制法", "附方", "附录", "校正", "采", "名", "苗", "地",
            "时", "收", "色", "臭", "制", "附", "产地", "方剂", "附案", "畏恶", "反", "忌", "使",
            "配",
        ],
    ),
];

/// The zone that a heading of a part opens.
pub(super) fn zone(heading: &str) -> Option<Zone> {
    ZONES
        .iter()
        .find(|(_, words)| words.contains(&heading))
        .map(|(zone, _)| *zone)
}
