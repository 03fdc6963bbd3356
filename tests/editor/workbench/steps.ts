export const steps = [];
