// Questions to the kit's part of the server: which lesson is this, how far is it, put a fresh copy beside it.
export async function ask(app, { ServerConnection, URLExt }, what, given, method = "GET") {
  const { serverSettings } = app.serviceManager;
  const address = URLExt.join(serverSettings.baseUrl, "twin-vessels", what) + URLExt.objectToQueryString(given);
  const reply = await ServerConnection.makeRequest(address, { method }, serverSettings);
  if (!reply.ok) throw new ServerConnection.ResponseError(reply);
  return reply.json();
}
