//! The smallest window of the same stack: what the app's start, memory and size are measured against.

use tauri::{WebviewUrl, WebviewWindowBuilder};

fn main() -> tauri::Result<()> {
    tauri::Builder::default()
        .setup(|app| {
            WebviewWindowBuilder::new(app, "main", WebviewUrl::default())
                .inner_size(800.0, 1280.0)
                .build()?;
            Ok(())
        })
        .run(tauri::generate_context!("examples/bare/tauri.conf.json"))
}
