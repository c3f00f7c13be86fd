export declare const JUDGES: Readonly<Record<string, readonly string[]>>;
