//! trencher in a browser page: the library's engine behind one function.

use wasm_bindgen::prelude::*;

/// Foods and dishes, ready to answer.
#[wasm_bindgen]
#[derive(Debug)]
pub struct Engine(trencher::browser::Engine);

#[wasm_bindgen]
impl Engine {
    /// Readies the engine. Fails only where the module was built from damaged tables.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Result<Engine, JsError> {
        Ok(Self(trencher::browser::Engine::new()?))
    }

    /// Answers one request, JSON in and JSON out: see `trencher::browser`.
    #[must_use]
    pub fn answer(&self, request: &str) -> String {
        self.0.answer(request)
    }
}
