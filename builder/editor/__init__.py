"""What a writer's editor asks: the schema, the language server, where a number shows."""
