/**
 * Listens for the server's word that the log has grown. Silence means nothing: the regular look is what syncing rests
 * on, this only makes it quicker. Reconnects by itself, as EventSource does.
 */
export function listen(url: string, heard: () => void): () => void {
  if (typeof EventSource === 'undefined') return () => undefined;
  let source: EventSource | null = null;
  let retry: ReturnType<typeof setTimeout> | undefined;
  let ended = false;
  const connect = (): void => {
    if (ended) return;
    source = new EventSource(url);
    source.addEventListener('head', heard);
    source.onerror = () => {
      // A source that the browser has closed for good (an answer that was no event stream) is opened anew, later.
      if (source?.readyState === EventSource.CLOSED) retry = setTimeout(connect, 30_000);
    };
  };
  connect();
  return () => {
    ended = true;
    clearTimeout(retry);
    source?.close();
  };
}
