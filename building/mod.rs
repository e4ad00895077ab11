//! What the build script does with the tables and the program itself never does: reading
//! them, and putting what words mean into one block.

pub mod foods;
pub mod knowledge;
pub mod tables;

mod states;
