/** How something stands; each has a colour and a glyph of its own, and a word beside it. */
export type Tone = 'done' | 'attention' | 'stop' | 'running' | 'plain';
