//! What the interface itself says, in English and Chinese: one table. Chinese is written in traditional script and shown in
//! the script asked for. Labels of values come from the vocabulary, not from here.

/// The language of the interface.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(crate) enum Lang {
    /// English.
    #[default]
    En,
    /// Chinese.
    Zh,
}

macro_rules! words {
    ($($(#[$meta:meta])* $name:ident: $english:literal, $chinese:literal;)*) => {
        /// Something that the interface says.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub(crate) enum Word { $($(#[$meta])* $name),* }

        impl Word {
            /// Every word: for the tests of the table.
            #[cfg(test)]
            pub(crate) const ALL: &'static [Self] = &[$(Self::$name),*];

            /// The word in a language, Chinese in traditional script.
            pub(crate) const fn text(self, lang: Lang) -> &'static str {
                match (self, lang) {
                    $((Self::$name, Lang::En) => $english, (Self::$name, Lang::Zh) => $chinese,)*
                }
            }
        }
    };
}

words! {
    // The frame of every page.
    Motto: "What the herb books say, side by side", "本草諸家之説，並列考異";
    SkipToText: "Skip to the text", "跳至正文";
    Sections: "Sections", "欄目";
    Herbs: "Herbs", "藥物";
    Search: "Search", "檢索";
    Find: "Find", "查找";
    Disputes: "Disputes", "爭議";
    Works: "Works", "書目";
    Affinity: "Affinity", "相近";
    Pair: "Pair", "配伍";
    Weigh: "Weigh", "衡量";
    Taste: "Tastings", "品嘗";
    Language: "Language", "語言";
    Script: "Script", "字體";
    ScriptRecorded: "as recorded", "依原文";
    Pinyin: "Pinyin", "拼音";
    On: "on", "開";
    Off: "off", "關";
    Json: "This page as JSON", "本頁 JSON";
    Description: "All addresses (OpenAPI)", "全部地址（OpenAPI）";
    Notice: "Kaoyi reports what books say and prescribes nothing. Check local law and ask a licensed practitioner before any use.", "考異只述書中所言，不開處方。用藥之前，請查當地法規，並詢問有執照之醫師。";
    // What goes wrong.
    NotFound: "Not found", "無此頁";
    NotAnswered: "This could not be answered", "未能作答";
    Refused: "Refused", "不予受理";
    NearToIt: "Near to it", "相近者";
    FaultyFolder: "The corpus folder has faults; what follows is its last good state.", "語料文件有誤；以下為上次完好之內容。";
    FaultyNotebook: "Part of the notebook is at fault and is not used.", "品嘗簿有誤之處未予採用。";
    Found: "found", "所見";
    Expected: "expected", "應為";
    Place: "place", "位置";
    // Disputes, works, pairing, weights, tastings.
    Any: "any", "不限";
    Show: "Show", "顯示";
    Herb: "herb", "藥物";
    Work: "work", "書";
    Kind: "kind of difference", "異同之類";
    Facets: "Facets", "方面";
    Facet: "facet", "方面";
    Period: "period", "時代";
    AllPeriods: "all periods", "歷代";
    Discord: "discord", "分歧";
    Stands: "stands", "家之説";
    WitnessesShort: "witnesses", "家";
    LinesShort: "lines", "傳承";
    WorksShort: "works", "書";
    Claims: "claims", "説";
    Entries: "entries", "條";
    Reviewed: "reviewed", "已校";
    Note: "note", "按";
    Amount: "amount", "用量";
    Share: "share", "所佔";
    Flavour: "flavour", "味";
    Flavours: "Flavours", "味";
    Warmth: "warmth", "寒熱";
    Taster: "taster", "品者";
    Day: "day", "日期";
    Median: "median", "中位數";
    Unsaid: "unsaid", "未言";
    FromMemory: "from memory", "憑記憶";
    OnlyThese: "Only", "只計";
    Since: "since", "自";
    Until: "until", "至";
    SinceYear: "works since the year", "書成於此年後";
    UntilYear: "works until the year", "書成於此年前";
    OnlyWorks: "only these works", "只計此數書";
    AllWorks: "Count all works", "計全部之書";
    Cautions: "Cautions", "警示";
    Grave: "Grave", "嚴重";
    CalledInBooks: "in the books: called", "書中謂";
    NoneOnRecord: "None on record here, which is no proof of harmlessness.", "此處無著錄，非無害之證。";
    GraveOnesOnly: "Grave ones only, and not complete: look at the herb itself to see all.", "只列嚴重者，未為完備：全部見各藥之頁。";
    Downloads: "To save", "下載";
    FaultsNotUsed: "faults; what is at fault was not used.", "處有誤；有誤者未採用。";
    // The front page.
    SearchLabel: "An herb, a word of the books, a property", "藥名、書中詞語或性味";
    SearchHint: "In Han characters, pinyin, Latin or English: 薄荷, juhua, mint, 頭痛", "漢字、拼音、拉丁或英文皆可：薄荷、juhua、mint、頭痛";
}

#[cfg(test)]
mod tests {
    use super::{Lang, Word};
    use pretty_assertions::assert_ne;

    #[test]
    fn every_word_is_said_in_both_languages() {
        for word in Word::ALL {
            let (english, chinese) = (word.text(Lang::En), word.text(Lang::Zh));
            assert!(!english.is_empty() && !chinese.is_empty(), "{word:?}");
            assert_ne!(english, chinese, "{word:?}");
        }
    }
}
