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
    Motto: "What the herb books say, side by side", "本草諸家之說，並列考異";
    SkipToText: "Skip to the text", "跳至正文";
    Sections: "Sections", "欄目";
    Herbs: "Herbs", "藥物";
    Search: "Search", "檢索";
    Find: "Find", "查找";
    Disputes: "Disputes", "爭議";
    Works: "Works", "書目";
    Affinity: "Affinity", "相近";
    Pair: "Pair", "配伍";
    Weigh: "Weigh", "度量衡";
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
    NotFound: "Not found", "未找到";
    NotAnswered: "This could not be answered", "未能作答";
    Refused: "Refused", "不予受理";
    FaultyFolder: "The corpus folder has faults; what follows is its last good state.", "語料文件夾有誤；以下為最近一次無誤之內容。";
    FaultyNotebook: "Part of the notebook is at fault and is not used.", "品嘗簿有誤之處未予採用。";
    Found: "found", "所見";
    Expected: "expected", "應為";
    // The front page.
    InAll: "{} herb(s) in {} book(s), each statement with its wording and place.", "{} 種藥物，{} 部書；每一說皆附原文與出處。";
    BeginWith: "Begin with", "由此開始";
    TwoHerbs: "two herbs beside each other", "兩藥並觀";
    SweetWarm: "sweet and warm, never called toxic", "甘溫而無人言毒";
    Answers: "Answers", "相應者";
    InWordings: "Look in the wordings of the books too", "亦於諸書原文中查找";
    NothingFound: "Nothing was found.", "未有所得。";
    SearchLabel: "An herb, a word of the books, a property", "藥名、書中詞語或性味";
    Names: "Names", "名稱";
    SearchHint: "In Han characters, pinyin, Latin or English: 薄荷, juhua, mint, 頭痛", "漢字、拼音、拉丁或英文皆可：薄荷、juhua、mint、頭痛";
    // An herb's page.
    Cautions: "Cautions", "警示";
    Grave: "Grave:", "嚴重：";
    InTheBooks: "In the books, most severe:", "諸書言其毒，最重者：";
    NoneOnRecord: "None on record here, which is no proof of harmlessness.", "此處未有記載，不足以證其無害。";
    GraveCautions: "grave cautions", "有嚴重警示";
    GraveOnesOnly: "Grave ones only, and not complete: see the herb itself.", "僅列嚴重者，未必完備；請看該藥本頁。";
    Latin: "Latin", "拉丁名";
    Species: "Species", "基原";
    FromMemory: "(from memory)", "（憑記憶）";
    PartUsed: "Part used", "藥用部位";
    AlsoCalled: "Also called", "別名";
    SharedNames: "Names of other drugs too", "與他藥共用之名";
    Note: "Note", "附注";
    Reading: "Reading", "校讀";
    ReviewedOf: "{} of {} articles compared with the text by a second reader", "{} / {} 條經第二人與原文核對";
    NobodySpeaks: "No work takes a stand on it in the years and works asked for.", "所選年代與書目中無人論及。";
    OnThisPage: "On this page", "本頁目次";
    AskFurther: "Ask further", "再問";
    BesideAnother: "Beside another herb, by any name", "與另一藥並觀（任何名稱）";
    Compare: "Compare", "比較";
    WhichWorks: "Which works count", "計入哪些書";
    Since: "since the year", "自某年起";
    Until: "until the year", "至某年止";
    WorksListed: "works, joined by commas", "書名，以逗號相隔";
    Count: "Count again", "重新計算";
    OnlyTheseWorks: "Only some works are counted:", "僅計部分書：";
    SinceYear: "finished in {} or later;", "{} 年或以後成書；";
    UntilYear: "finished in {} or earlier;", "{} 年或以前成書；";
    AllWorks: "count all", "全部計入";
    // What most say.
    Consensus: "What most books say", "諸家所同";
    ProfileHint: "Books: k of n that take a stand. Lines: independent lines of transmission. Interval: Wilson, 95 %; none where a list is open.", "書：n 家立說者中 k 家如此。系：獨立之傳承。區間：Wilson 95 %；列舉未盡者不給。";
    Value: "value", "值";
    Books: "books", "書";
    LinesShort: "lines", "系";
    Interval: "95 %", "95 % 區間";
    FirstIn: "first in", "首見";
    Verdict: "verdict", "斷語";
    WitnessesInLines: "{} witness(es) in {} line(s)", "{} 家，{} 系";
    AnyDegree: "in any degree", "不論輕重";
    SilentWorks: "Silent in their articles:", "有條目而未言者：";
    Working: "The working", "算法";
    WorkingHint: "Rules 3, 6 and 15 to 18 of the methods: a witness that repeats a work from which it descends stands in that work's line; every other begins one.", "依方法第 3、6、15 至 18 條：承襲其所本之書而說相同者，併入該系；其餘各自成系。";
    Median: "Median", "中位";
    MiddleHalf: "middle half", "中間半數";
    AllFrom: "all from", "全距";
    MostSevere: "Most severe here:", "此中最重者：";
    Yes: "yes", "是";
    MostlyYes: "mostly yes", "多是";
    Disputed: "disputed", "有爭議";
    MostlyNo: "mostly no", "多非";
    BySome: "by some", "有言之者";
    No: "no", "否";
    // Where they differ.
    Differences: "Where the books agree and differ", "諸家異同";
    Single: "single witness", "僅一家";
    Unanimous: "unanimous", "一致";
    Nested: "nested", "包含";
    Mixed: "mixed", "參差";
    Graded: "graded", "輕重";
    Crossing: "crossing", "相反";
    ByScope: "by scope", "因部位炮製而異";
    OverTime: "over time", "古今之變";
    NestedGist: "the shortest list stands in all the others", "最短之列舉見於其餘各家";
    CrossingGist: "opposite sides", "各執一端";
    MixedGist: "lists overlap in part or not at all", "所列或部分相同，或全然不同";
    ByScopeGist: "of a part, preparation or kind otherwise than of the herb as such", "論某部位、炮製或品種，與論本品不同";
    GradedFlavour: "the same flavours in another degree", "味同而輕重不同";
    GradedToxicity: "toxic in all, in another degree", "皆言有毒而輕重不同";
    GradedNature: "same side of neutral, other strength", "同側而強弱不同";
    GradedRank: "of another rank", "品第不同";
    TurnGist: "first {}, then {} from {} on", "先言{}，後言{}，自{}起";
    AgainstTurn: "against it:", "不從者：";
    NBooks: "{} book(s)", "{} 家";
    // Side by side.
    SideBySide: "Side by side", "諸書並列";
    Work: "work", "書";
    Year: "year", "年";
    Said: "said", "言之";
    Slightly: "slightly", "微";
    Greatly: "greatly", "甚";
    OfScopeOnly: "of a part or preparation only", "僅言某部位或炮製";
    Denied: "left out of its list, so denied", "列舉中無，故為否定";
    Silent: "silent", "未言";
    Unquoted: "blank: not quoted on it", "空白：未見引述";
    OtherSigns: "(…) of that only, not counted; ≠ carriers differ; ? doubtful; * your own folder.", "（…）僅言所括之部位、炮製或品種，不計；≠ 轉引互異；? 存疑；* 自備之文件夾。";
    CarriersDiffer: "those who quote it differ", "轉引互異";
    Doubtful: "doubtful", "存疑";
    NotCounted: "not counted", "不計";
    Through: "through", "轉引自";
    OnActionsOnly: "On its actions only:", "僅言功用者：";
    Wordings: "The wording and place behind every cell", "每格之原文與出處";
    Lines: "Lines of transmission", "傳承之系";
    LinesText: "Books that repeat an older one on which they draw are one line.", "承襲所本之書而說相同者為一系。";
    Line: "line", "系";
    DrawsOn: "draws on", "所本";
    // Drawings.
    Drawings: "Drawings", "圖";
    Timeline: "Its witnesses through time", "諸家年代";
    TimelineHint: "A mark's shape tells how the work has come down; the words beside it say the same.", "記號之形示其書之存佚，旁有文字。";
    NatureChart: "From cold to hot", "自寒至熱";
    NatureHint: "Each row is a book, the oldest above; its place is the nature that it states.", "每行一書，古者在上；其位即所言之性。";
    FlavourChart: "How many books state each flavour", "各味幾家言之";
    FlavourHint: "A flavour that a book leaves out of its list, it denies.", "列舉中所無之味，視為否定。";
    LinesChart: "Who draws on whom", "孰本於孰";
    LinesHint: "Books that repeat an older one are one line of transmission; count voices by lines too.", "承襲者為一系；計其聲亦當以系計。";
    OpposedChart: "Opposed actions", "功用相反";
    // Actions.
    Actions: "What it is said to do", "所言功用";
    ActionsHint: "Works, and in how many lines of transmission. Silence on an action means nothing.", "幾家言之，幾系。未言某功用，不足為據。";
    WorksInLines: "{} work(s) in {} line(s)", "{} 家，{} 系";
    OfScopeN: "{} of a part or preparation", "{} 家僅言某部位或炮製";
    OneWorkEach: "{} more, stated by one work each", "另 {} 項，各一家言之";
    Contrary: "Said to do, and said to do the contrary", "言其如此，又言其反";
    OpposedHint: "Such a pair is often both true: of another dose, part, preparation or partner (common practice, no source).", "兩說往往皆然：用量、部位、炮製或配伍不同（習用，無出處）。";
    Both: "Both in:", "兩言之者：";
    BothByScope: "Both, but one of a part or preparation only:", "兩言之，其一僅指部位或炮製：";
    ToldApartBy: "Told apart by:", "可由此分辨：";
    // Other drugs.
    Relations: "With other drugs", "與他藥";
    InOtherArticles: "In articles on other drugs, which are said to stand so to it", "見於他藥條下，言彼與此";
    RelationsHint: "How many works say so; ? all doubtful; ° of a part or preparation only. Read by the program. What books say, no rule for combining.", "言之者幾家；? 皆存疑；° 僅言某部位或炮製。由程式讀出。此為書中所言，非配伍之規。";
    // The own tongue.
    OwnTongue: "Your own tongue, not counted", "親嘗所得（不計）";
    OwnDays: "{} own tasting(s), {} to {}:", "親嘗 {} 次，{} 至 {}：";
    OwnHint: "Scores from 0 to 10, warmth from -5 (cold) to 5 (hot); not counted among the books.", "分數 0 至 10，溫感 -5（寒）至 5（熱）；不計入諸書。";
    Scored: "scored", "項目";
    Lowest: "lowest", "最低";
    Highest: "highest", "最高";
    // Two herbs.
    Together: "Together", "合用";
    MustNotMeet: "must not meet", "不可同用";
    NotForbidden: "The pair stands neither in the eighteen opposites nor in the nineteen fears; that is no proof of harmlessness.", "此二藥不在十八反、十九畏之列，不足以證其無害。";
    AllDoubtful: "all doubtful", "皆存疑";
    AmbiguousName: "by a name that other herbs bear too", "所用之名亦屬他藥";
    AgainstHint: "k/n witnesses and, in brackets, the 95 % interval. Apart: the intervals do not meet; of channels, three works or more name it of the one and none of the other.", "n 家中 k 家，括號內為 95 % 區間。有別：兩區間不相交；歸經則一藥有三家以上言之而另一藥無之。";
    AgainstActions: "Works that say so of the first and of the second. Only: three works or more, and none of the other herb; silence is no denial.", "言第一藥與第二藥者各幾家。僅見：三家以上，而另一藥無之；未言非否定。";
    Facet: "facet", "項";
    ToldApart: "told apart", "分別";
    Apart: "apart", "有別";
    OnlyOf: "only {}", "僅見於 {}";
    OfBoth: "both", "兩者皆有";
    // Finding.
    FindHead: "Find by words and properties", "按詞語與性味查找";
    ByProperty: "By property", "按性味";
    Never: "nobody may say", "無人言及";
    OnHerb: "only on the herb", "僅此藥";
    HowMany: "How many witnesses must say so", "須幾家言之";
    ByAny: "any witness", "任一家";
    ByMost: "most witnesses", "多數";
    ByAll: "all witnesses", "全部";
    LeaveOut: "leave out", "去除";
    HerbsFound: "{} herb(s)", "{} 種藥";
    SayingsFound: "{} saying(s) on {} herb(s)", "{} 條，{} 種藥";
    NameExact: "its name", "即其名";
    NameBegins: "a name begins so", "名以此起首";
    NameContains: "in a name", "名中有此";
    NameSounds: "a name sounds so", "名之音近";
    NameNear: "a name is near to it", "名相近";
    LinesOf: "{}/{} lines", "{}/{} 系";
    MoreSayings: "{} more saying(s)", "另 {} 條";
    Pages: "Pages", "分頁";
    Before: "before", "前頁";
    Next: "next", "次頁";
    AmongThem: "Among all of them", "其中";
    AmongHint: "Herbs that most of their witnesses call so, in any degree. A value narrows the search.", "多數家如此言之者，不論輕重。點選即縮小範圍。";
    ByWork: "Sayings by work", "按書計條";
    // Names.
    NamesHead: "Who bears a name", "何藥有此名";
    NameLabel: "A name, in any script or spelling", "名稱，任何文字或拼法";
    NobodyBears: "No herb here is called so.", "此處無藥有此名。";
    Headings: "Books that have an article under it", "以此立條之書";
    NearNames: "Names that hold it or are near to it", "含此或近此之名";
    NMore: "{} more", "另 {} 種";
    AnotherDrug: "Another drug bears it too:", "他藥亦有此名：";
    AsName: "its name", "正名";
    AsEnglish: "English name", "英文名";
    AsId: "id", "編號";
    AsAnother: "another name", "別名";
    // Disputes, works, pairing, weights, tastings.
    Any: "any", "不限";
    Show: "Show", "顯示";
    Herb: "herb", "藥物";
    Kind: "kind of difference", "異同之類";
    Facets: "Facets", "方面";
    Period: "period", "時代";
    AllPeriods: "all periods", "歷代";
    Discord: "discord", "分歧";
    Stands: "stands", "立說";
    WitnessesShort: "witnesses", "家";
    WorksShort: "works", "書";
    Claims: "claims", "說";
    Entries: "entries", "條";
    Reviewed: "reviewed", "已校";
    Amount: "amount", "用量";
    Share: "share", "所佔";
    Flavour: "flavour", "味";
    Flavours: "Flavours", "味";
    Warmth: "warmth", "寒熱";
    Taster: "taster", "品嘗者";
    Day: "day", "日期";
    Unsaid: "unsaid", "未言";
    Downloads: "To save", "下載";
    FaultsNotUsed: "{} fault(s); what is at fault was not used.", "{} 處有誤；有誤者未採用。";
    TastingsNumber: "{} tasting(s)", "{} 次品嘗";
    TastersTastingsCups: "{} taster(s); {} tasting(s); {} cup(s)", "{} 人；{} 次品嘗；{} 杯";
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
