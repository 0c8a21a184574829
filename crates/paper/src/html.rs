//! Pages as one HTML file: the same drawings, one sheet a page; the fonts are in it once, nothing is loaded from
//! elsewhere.

use std::fmt::Write;

use shuttle_report::chart::Letters;
use shuttle_report::chart::drawing::escaped;

use crate::layout::sheet::Page;

/// The pages as an HTML file.
pub fn html(pages: &[Page], title: &str) -> String {
    let (mut body, mut letters) = (String::new(), Letters::default());
    for (place, page) in pages.iter().enumerate() {
        let about = format!("{title}, page {} of {}", place + 1, pages.len());
        let svg = page.svg(&about);
        letters.add(&svg);
        let _ = writeln!(body, "<section>{svg}</section>");
    }
    let (wide, tall) = pages.first().map_or((612.0, 792.0), |page| (page.wide, page.tall));
    format!(
        "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta name=\"viewport\" content=\"width=device-width\">\n<title>{}</title>\n\
         <style>{}\n\
         body{{margin:0;background:#ccc}}section{{margin:1em auto;max-width:{wide:.2}pt}}\
         svg{{display:block;width:100%;height:auto}}\
         @page{{size:{wide:.2}pt {tall:.2}pt;margin:0}}\
         @media print{{body{{background:none}}section{{margin:0;max-width:none;height:100vh;break-after:page;\
         break-inside:avoid}}svg{{height:100%}}section:last-child{{break-after:auto}}}}</style>\n\
         </head>\n<body>\n<main>\n{body}</main>\n</body>\n</html>\n",
        escaped(title),
        letters.faces()
    )
}
