// In a worker: one engine, one call after the other. The bindings stand before this text.

let ready;

onmessage = async ({ data }) => {
  if (data.module !== undefined) {
    ready = wasm_bindgen({ module_or_path: data.module });
    return;
  }
  const { number, what, given } = data;
  try {
    await ready;
    const reply = wasm_bindgen[what](...given);
    postMessage({ number, reply: typeof reply === 'string' && what !== 'starter' ? JSON.parse(reply) : reply });
  } catch (error) {
    postMessage({ number, failed: String(error) });
  }
};
