/** Whether what is built is what the sources say now. `root` ends with "/". */
export function isBuilt(root: string): boolean;
/** Notes down what was built from which sources. */
export function markBuilt(root: string): void;
