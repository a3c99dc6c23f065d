import "../../parts/work";
