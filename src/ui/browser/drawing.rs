//! A picture that was picked: read as it is meant to stand, and written anew at another size. What a camera writes beside the
//! picture is not drawn, and so is not in what is written.

use super::by_name::{ask, call, get, number, set, window};
use hundred_parts::batch::study::MEDIA_TYPE;
use js_sys::{Function, Promise, Uint8Array};
use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;

/// A picture in memory.
pub(crate) struct Drawing {
    bitmap: JsValue,
    /// Its width in pixels, as it is to stand.
    pub(crate) width: u32,
    /// Its height, likewise.
    pub(crate) height: u32,
    /// How many bytes the file had.
    pub(crate) bytes: u64,
}

impl Drawing {
    /// Reads a file, turned as the camera says that it was held. `None` if the browser cannot read it as a picture.
    pub(crate) async fn of(file: &web_sys::File) -> Option<Self> {
        let options: JsValue = js_sys::Object::new().into();
        set(&options, "imageOrientation", &"from-image".into()).ok()?;
        let bitmap = ask(&window(), "createImageBitmap", &[file, &options]).await.ok()?;
        let side = |name| u32::try_from(number(&bitmap, name)?).ok().filter(|side| *side > 0);
        Some(Self { width: side("width")?, height: side("height")?, bytes: number(file, "size").unwrap_or(0), bitmap })
    }

    /// Written at a size and a quality in percent. `None` if the browser cannot.
    pub(crate) async fn written(&self, width: u32, height: u32, quality: u8) -> Option<Vec<u8>> {
        let canvas: JsValue = web_sys::window()?.document()?.create_element("canvas").ok()?.into();
        set(&canvas, "width", &width.into()).ok()?;
        set(&canvas, "height", &height.into()).ok()?;
        let pen = call(&canvas, "getContext", &[&"2d".into()]).ok()?;
        // What shines through would be black.
        let (zero, wide, high): (JsValue, JsValue, JsValue) = (0.into(), width.into(), height.into());
        set(&pen, "fillStyle", &"#fff".into()).ok()?;
        set(&pen, "imageSmoothingQuality", &"high".into()).ok()?;
        call(&pen, "fillRect", &[&zero, &zero, &wide, &high]).ok()?;
        call(&pen, "drawImage", &[&self.bitmap, &zero, &zero, &wide, &high]).ok()?;
        let quality: JsValue = (f64::from(quality) / 100.0).into();
        let promise = Promise::new(&mut |resolve: Function, reject: Function| {
            if call(&canvas, "toBlob", &[&resolve, &MEDIA_TYPE.into(), &quality]).is_err() {
                let _ = reject.call0(&JsValue::NULL);
            }
        });
        let blob = JsFuture::from(promise).await.ok().filter(|blob| !blob.is_null())?;
        // A browser that cannot write the kind writes another one.
        get(&blob, "type").ok()?.as_string().filter(|kind| kind == MEDIA_TYPE)?;
        let buffer = ask(&blob, "arrayBuffer", &[]).await.ok()?;
        Some(Uint8Array::new(&buffer).to_vec())
    }
}

impl Drop for Drawing {
    /// Tens of megabytes, which would stay until somebody collects them.
    fn drop(&mut self) {
        let _ = call(&self.bitmap, "close", &[]);
    }
}
