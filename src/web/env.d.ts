declare const __ROUNDHAND_VERSION__: string;
