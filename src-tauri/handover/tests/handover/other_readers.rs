//! Two further readers, of other origin than rqrr and than each other: zbarimg (zbar-tools) and ZXingReader
//! (zxing-cpp-tools), each on a picture file.

use std::path::Path;
use std::process::Command;

use handover::{Drawing, Level, copy, draw};

use crate::made::{key, longest, signed, summary};
use crate::picture::pixels;

fn picture_file(folder: &Path, name: &str, drawing: &Drawing) -> std::path::PathBuf {
    let (width, grey) = pixels(drawing, 4);
    let file = folder.join(format!("{name}.pgm"));
    let bytes = [format!("P5 {width} {width} 255\n").as_bytes(), &grey].concat();
    std::fs::write(&file, bytes).unwrap();
    file
}

fn output(program: &str, arguments: &[&str], file: &Path) -> Vec<u8> {
    let done = Command::new(program).args(arguments).arg(file).output();
    let done = done.unwrap_or_else(|error| panic!("{program}: {error}"));
    assert!(done.status.success(), "{program}: {}", String::from_utf8_lossy(&done.stderr));
    done.stdout
}

#[test]
fn other_readers_read_the_same_bytes() {
    let folder = tempfile::tempdir().unwrap();
    for (name, summary) in [("ordinary", summary()), ("longest", longest())] {
        let lines = signed(&summary);
        let copied = copy::sign(&summary, &key()).unwrap();
        for (kind, code, level) in [("lines", lines, Level::M), ("copy", copied, Level::Q)] {
            let drawing = draw(&code, level, 20).unwrap();
            let file = picture_file(folder.path(), &format!("{name}-{kind}"), &drawing);
            let zbar = output("zbarimg", &["-q", "--raw", "-Sbinary"], &file);
            assert_eq!(zbar, code.as_bytes(), "zbarimg, {name} {kind}");
            let zxing = output("ZXingReader", &["-bytes"], &file);
            assert_eq!(zxing, code.as_bytes(), "ZXingReader, {name} {kind}");
        }
    }
}
