// The form in which JupyterLab loads an extension: a module federation container. Written by hand, so that the kit needs no build step;
// everything else here is plain modules that the browser fetches from this same folder.
{
  const here = document.currentScript.src;
  let shared = {};
  const borrow = async name => (await Object.values(shared[name])[0].get())(); // a part of JupyterLab itself, not a second copy

  window._JUPYTERLAB = window._JUPYTERLAB || {};
  window._JUPYTERLAB["twin-vessels"] = {
    init: scope => { shared = scope; },
    get: async () => {
      const { plugins } = await import(new URL("plugins.js", here));
      const found = await plugins(borrow);
      return () => ({ __esModule: true, default: found });
    },
  };
}
