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
