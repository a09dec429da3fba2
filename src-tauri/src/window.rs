//! The one window: local pages only, loaded again when its process dies or hangs.

use tauri::{App, Manager, Runtime, Url, WebviewUrl, WebviewWindow, WebviewWindowBuilder};

use crate::bedside::Bedside;
use crate::watchdog::LastLoad;

const WIDTH: f64 = 800.0;
const HEIGHT: f64 = 1280.0;

/// Opens the window named in the capability.
pub fn open<R: Runtime>(app: &App<R>) -> tauri::Result<()> {
    let builder = WebviewWindowBuilder::new(app, "main", WebviewUrl::default()).on_navigation(is_ours);
    reload_when_dead(&desktop_frame(builder).build()?)
}

fn is_ours(url: &Url) -> bool {
    url.scheme() == "tauri" || url.host_str() == Some("tauri.localhost")
}

#[cfg(desktop)]
fn desktop_frame<R: Runtime>(
    builder: WebviewWindowBuilder<'_, R, App<R>>,
) -> WebviewWindowBuilder<'_, R, App<R>> {
    builder
        .title("Holdfast")
        .inner_size(WIDTH, HEIGHT)
        .min_inner_size(360.0, 640.0)
        .disable_drag_drop_handler()
}

#[cfg(mobile)]
fn desktop_frame<R: Runtime>(
    builder: WebviewWindowBuilder<'_, R, App<R>>,
) -> WebviewWindowBuilder<'_, R, App<R>> {
    builder
}

/// The page can die alone and leave its last card standing: load it again.
#[cfg(target_os = "linux")]
fn reload_when_dead<R: Runtime>(window: &WebviewWindow<R>) -> tauri::Result<()> {
    use webkit2gtk::WebViewExt;
    let app = window.app_handle().clone();
    window.with_webview(move |view| {
        view.inner().connect_web_process_terminated(move |view, reason| {
            eprintln!("Holdfast: the page ended ({reason:?}); loading it again.");
            app.state::<Bedside>().page_died();
            app.state::<LastLoad>().is_now();
            view.reload();
        });
    })
}

#[cfg(not(target_os = "linux"))]
fn reload_when_dead<R: Runtime>(_: &WebviewWindow<R>) -> tauri::Result<()> {
    Ok(())
}

/// Loads a page that hangs. It would not hear a mere reload, so its process ends first; a page whose process
/// never came up has none to end.
#[cfg(target_os = "linux")]
pub fn load_again<R: Runtime>(window: &WebviewWindow<R>) -> tauri::Result<()> {
    use webkit2gtk::WebViewExt;
    window.with_webview(|view| {
        view.inner().terminate_web_process();
        view.inner().reload();
    })
}

#[cfg(not(target_os = "linux"))]
pub fn load_again<R: Runtime>(window: &WebviewWindow<R>) -> tauri::Result<()> {
    window.reload()
}

/// A page that nobody can see draws nothing, and need not.
pub fn is_seen<R: Runtime>(window: &WebviewWindow<R>) -> bool {
    window.is_visible().unwrap_or(true) && !window.is_minimized().unwrap_or(false)
}
