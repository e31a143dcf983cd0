pub mod claim;
pub mod compare;
pub mod corpus;
pub mod report;
pub mod stats;
pub mod text;
