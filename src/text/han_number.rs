//! The characters of Han numerals, and whole numbers written in them.

/// What a Han character is in a number.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Han {
    /// 零 to 九.
    Digit(u64),
    /// 廿, 卅, 卌: that many tens.
    Tens(u64),
    /// 十, 百, 千, 萬.
    Unit(u64),
}

/// Numerals, with the forms used in accounts. 兩 is not among them: whether it is a number is told by what follows it.
pub(super) fn han(c: char) -> Option<Han> {
    Some(match c {
        '零' | '〇' => Han::Digit(0),
        '一' | '壹' | '壱' | '弌' => Han::Digit(1),
        '二' | '貳' | '贰' | '貮' | '弍' => Han::Digit(2),
        '三' | '參' | '叁' | '叄' | '弎' => Han::Digit(3),
        '四' | '肆' => Han::Digit(4),
        '五' | '伍' => Han::Digit(5),
        '六' | '陸' | '陆' => Han::Digit(6),
        '七' | '柒' => Han::Digit(7),
        '八' | '捌' => Han::Digit(8),
        '九' | '玖' => Han::Digit(9),
        '廿' | '卄' => Han::Tens(2),
        '卅' => Han::Tens(3),
        '卌' => Han::Tens(4),
        '十' | '拾' => Han::Unit(10),
        '百' | '佰' => Han::Unit(100),
        '千' | '仟' => Han::Unit(1000),
        '萬' | '万' => Han::Unit(10_000),
        _ => return None,
    })
}

/// A whole number up to 9999 in traditional Han numerals: 十二, 一百零五. Of greater ones the digits.
///
/// ```
/// assert_eq!(kaoyi::text::han_numeral(24), "二十四");
/// assert_eq!(kaoyi::text::han_numeral(1005), "一千零五");
/// ```
#[must_use]
pub fn han_numeral(number: u32) -> String {
    const DIGITS: [&str; 10] = ["零", "一", "二", "三", "四", "五", "六", "七", "八", "九"];
    if number == 0 || number > 9999 {
        return number.to_string();
    }
    let mut written = String::new();
    let mut gap = false;
    for (unit, sign) in [(1000, "千"), (100, "百"), (10, "十"), (1, "")] {
        let digit = (number / unit % 10) as usize;
        if digit == 0 {
            gap = !written.is_empty();
            continue;
        }
        if gap {
            written.push_str(DIGITS[0]);
            gap = false;
        }
        // Ten to nineteen go without the one.
        if !(unit == 10 && digit == 1 && written.is_empty()) {
            written.push_str(DIGITS[digit]);
        }
        written.push_str(sign);
    }
    written
}
