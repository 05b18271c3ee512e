"""What a class needs: materials, tools, preparation and times, from the dry run and the class's settings."""
